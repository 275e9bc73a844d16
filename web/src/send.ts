// SPDX-License-Identifier: GPL-3.0-or-later
// Slips on their way to the laptop: one after another in the order of writing, each until it is answered. What the laptop cannot
// take waits for a person, and with it later slips about the same cell; nothing is dropped. And the way back: cells and crates.
import { ask, Problem, token } from "./api";
import { bench, changed, heldUp, keepSteps, open, sent, wakes, write, type Cell, type Crate, type Entry, type Tool, type Trouble } from "./bench";
import { alone } from "./carried";
import type { Result } from "./judge";
import { runOf, type StoredRun } from "./runs";
import { about, head, type Slip } from "./slips";

const AGAIN_MS = 8000;
/** The single-file page hands its slips over as a file or as codes. */
export { alone } from "./carried";

const ofLaptop = (cell: Cell): Cell => { const { results: _1, waits: _2, ...rest } = cell; return rest; };

const arrived: string[] = []; /* of each answered slip the cell, "" for none: what the laptop was asked before that may be older */
async function settle(entry: Entry, answer: { cell?: Cell; crate?: Crate; run?: StoredRun; results?: Result[] }): Promise<void> {
  const { cell, crate } = answer, before = cell ? bench.base.get(cell.id) : undefined;
  const known = cell && (before?.results ?? (entry.slip.kind === "cell" ? [] : undefined));
  const now = cell && { ...cell, ...(known ? { results: entry.slip.kind === "test" ? [...known, ...(answer.results ?? [])] : known } : {}) };
  const gone = entry.slip.kind === "remove" && !cell ? entry.slip.row : undefined, run = answer.run ? runOf(answer.run) : undefined;
  const over = entry.slip.kind === "test" ? entry.slip.run : run ? undefined : gone;
  arrived.push(cell?.id ?? gone ?? ""); /* before it is kept: what was asked earlier may come in meanwhile */
  await keepSteps([
    { shelf: "queue", remove: entry.n }, ...(now ? [{ shelf: "cells" as const, put: now }] : []), ...(crate ? [{ shelf: "crates" as const, put: crate }] : []),
    ...(gone ? [{ shelf: "cells" as const, remove: gone }] : []), ...(run ? [{ shelf: "runs" as const, put: run }] : []), ...(over ? [{ shelf: "runs" as const, remove: over }] : []),
  ]);
  if (now) bench.base.set(now.id, now);
  if (crate) bench.crates.set(crate.code, crate);
  if (gone) bench.base.delete(gone);
  if (run) bench.baseRuns.set(run.id, run);
  if (over) bench.baseRuns.delete(over);
  bench.queue = bench.queue.filter((one) => one.n !== entry.n);
  sent.delete(entry.n);
}

async function hold(entry: Entry, problem: Problem): Promise<void> {
  const more = problem.more as { stored?: Record<string, unknown>; sent?: Record<string, unknown> };
  const trouble: Trouble = { status: problem.status, detail: problem.message, field: problem.field, ...(more.stored ? { stored: more.stored } : {}), ...(more.sent ? { sent: more.sent } : {}) };
  const held = { ...entry, trouble };
  await keepSteps([{ shelf: "queue", put: held }]);
  bench.queue = bench.queue.map((one) => (one.n === entry.n ? held : one));
  sent.delete(entry.n);
}

/* Problems that a person must settle; the others pass by themselves. */
const mine = new Set([400, 403, 404, 409, 412, 413, 422]);

/** True: the next one may go. */
async function sendOne(entry: Entry): Promise<boolean> {
  sent.add(entry.n);
  try {
    await settle(entry, await ask("POST", "/slips", entry.slip));
    return true;
  } catch (error) {
    if (error instanceof Problem && mine.has(error.status)) { await hold(entry, error); return true; }
    bench.sending = !(error instanceof Problem) || error.kind === "away" ? "away" : error.status === 401 ? "unpaired" : "later";
    return false;
  }
}

async function sendAll(): Promise<void> {
  for (;;) {
    const entry = bench.queue.find((one) => !one.trouble && !heldUp(one));
    if (!entry) { bench.sending = ""; break; }
    bench.sending = "sending";
    if (!(await sendOne(entry))) break;
    changed();
  }
  changed();
}

let running = false, timer: ReturnType<typeof setTimeout> | undefined;
/** One sender at a time, in all windows of this browser; what has no answer goes again after a while. */
export async function send(): Promise<void> {
  if (running || alone()) return;
  running = true;
  clearTimeout(timer);
  try {
    await open();
    if (bench.queue.length) await (navigator.locks ? navigator.locks.request("lanewick.send", sendAll) : sendAll());
  } finally {
    running = false;
    /* What was written down while the sender was leaving goes at once. */
    if (bench.queue.some((one) => !one.trouble && !heldUp(one))) timer = setTimeout(() => void send(), bench.sending === "" ? 0 : AGAIN_MS);
  }
}
wakes(() => void send());
addEventListener("online", () => void send());
document.addEventListener("visibilitychange", () => { if (!document.hidden) void send(); });

/* --- a person settles a trouble ---------------------------------------------------------------------------------- */

async function drop(entry: Entry): Promise<void> {
  await keepSteps([{ shelf: "queue", remove: entry.n }]);
  bench.queue = bench.queue.filter((one) => one.n !== entry.n);
}

/** What is stored stays. Slips about a cell that turned out to be the stored one speak of that from now on. */
export async function leave(entry: Entry): Promise<void> {
  const there = entry.trouble?.stored as unknown as Cell | undefined;
  await drop(entry);
  if (entry.slip.kind === "cell" && there?.id) await turn(entry.slip.id, there);
  else if (entry.slip.kind === "cell" && !there) await dropAll(about(entry.slip));
  if (there?.id && there.verdict) { await keepSteps([{ shelf: "cells", put: ofLaptop(there) }]); bench.base.set(there.id, ofLaptop(there)); }
  changed();
  void send();
}

async function turn(from: string, to: Cell): Promise<void> {
  const turned = bench.queue.filter((one) => about(one.slip) === from).map((one): Entry => ({ n: one.n, slip: { ...one.slip, ...("cell" in one.slip ? { cell: to.id } : {}) } as Slip }));
  await keepSteps(turned.map((put) => ({ shelf: "queue" as const, put })));
  bench.queue = bench.queue.map((one) => turned.find((t) => t.n === one.n) ?? one);
}

async function dropAll(id: string): Promise<void> {
  for (const one of bench.queue.filter((other) => about(other.slip) === id)) await drop(one);
}

/** What was written here counts: a change says so anew, knowing what is stored now. */
export async function insist(entry: Entry): Promise<void> {
  const stored = (entry.trouble?.stored ?? {}) as Record<string, string | number | null>;
  if (entry.slip.kind !== "change") return;
  const none = (key: string): string | number | null => (key === "found_v" || key === "rated_ah" ? null : key === "voltage_class" ? "unknown" : "");
  const was = Object.fromEntries(Object.keys(entry.slip.set).map((key) => [key, stored[key] ?? none(key)]));
  const again: Entry = { n: entry.n, slip: { ...entry.slip, ...head(), was } };
  await replace(entry, again);
}

/** A new cell under another label; a slip that was wrong, corrected. */
export async function replace(entry: Entry, again: Entry): Promise<void> {
  await keepSteps([{ shelf: "queue", put: again }]);
  bench.queue = bench.queue.map((one) => (one.n === entry.n ? again : one));
  changed();
  void send();
}
/** A test whose discharge is over elsewhere, kept for itself. */
export function apart(entry: Entry): Promise<void> {
  if (entry.slip.kind !== "test") return Promise.resolve();
  const { run: _run, ...slip } = entry.slip;
  return replace(entry, { n: entry.n, slip: { ...slip, id: head().id } });
}
export const relabel = (entry: Entry, code: string): Promise<void> => replace(entry, { n: entry.n, slip: { ...entry.slip, code } as Slip });

/* --- the way back ------------------------------------------------------------------------------------------------ */

export async function freshCrates(): Promise<void> {
  const { crates } = await ask<{ crates: Crate[] }>("GET", "/crates"), { tools } = await ask<{ tools: Tool[] }>("GET", "/tools");
  await keepSteps([...crates.map((put) => ({ shelf: "crates" as const, put })), ...tools.map((put) => ({ shelf: "tools" as const, put }))]);
  crates.forEach((crate) => bench.crates.set(crate.code, crate));
  bench.tools = tools;
  changed();
}

const PAGE_MOST = 40;
export async function freshCells(crate: string): Promise<void> {
  const found: Cell[] = [], before = arrived.length;
  for (let after: string | null = "", page = 0; after !== null && page < PAGE_MOST; page++) {
    const part: { cells: Cell[]; after: string | null } = await ask("GET", `/crates/${encodeURIComponent(crate)}/cells?limit=500${after ? `&after=${encodeURIComponent(after)}` : ""}`);
    found.push(...part.cells);
    after = part.after;
  }
  const newer = new Set(arrived.slice(before)), ids = new Set(found.map((cell) => cell.id)), news = found.filter((cell) => !newer.has(cell.id));
  const gone = [...bench.base.values()].filter((cell) => cell.crate === crate && !ids.has(cell.id) && !newer.has(cell.id));
  gone.forEach((cell) => bench.base.delete(cell.id));
  news.forEach((cell) => bench.base.set(cell.id, cell));
  await keepSteps([...news.map((put) => ({ shelf: "cells" as const, put })), ...gone.map((cell) => ({ shelf: "cells" as const, remove: cell.id }))]);
  changed();
}

/** What other phones have begun and read meanwhile. */
export async function freshRuns(): Promise<void> {
  const before = arrived.length, stored = (await ask<{ runs: StoredRun[] }>("GET", "/runs")).runs, runs = stored.map(runOf);
  for (const { cell, code } of stored) if (!bench.base.has(cell)) {
    const put = await ask<Cell>("GET", `/cells/${encodeURIComponent(code)}`);
    await keepSteps([{ shelf: "cells", put }]);
    bench.base.set(put.id, put);
  }
  if (arrived.length !== before) return; /* something of ours arrived meanwhile: this answer may be older */
  const gone = [...bench.baseRuns.keys()].filter((id) => !runs.some((run) => run.id === id));
  bench.baseRuns = new Map(runs.map((run) => [run.id, run]));
  await keepSteps([...runs.map((put) => ({ shelf: "runs" as const, put })), ...gone.map((id) => ({ shelf: "runs" as const, remove: id }))]);
  changed();
}

/** The tests behind a cell's verdict, so that the next reading is judged with them. */
export async function freshTests(cell: Cell): Promise<void> {
  const before = arrived.length, { tests } = await ask<{ tests: { results: Result[] }[] }>("GET", `/cells/${encodeURIComponent(cell.code)}/tests?limit=500`);
  const base = bench.base.get(cell.id);
  if (!base || arrived.includes(cell.id, before)) return base && freshTests(cell);
  const now = { ...base, results: tests.flatMap((test) => test.results) };
  bench.base.set(now.id, now);
  await keepSteps([{ shelf: "cells", put: now }]);
  changed();
}

export const paired = (): boolean => token.get() !== "";
export { write };
