// SPDX-License-Identifier: GPL-3.0-or-later
// The bench in this browser: cells as the laptop last told them, and on top of them what was written down here and is not sent
// yet. Every slip is kept before the page says so; sending is the matter of send.ts.
import { useEffect, useState } from "preact/hooks";
import { core } from "./core";
import { judge, resultsOf, type Result } from "./judge";
import { keep, type Kept, type Step } from "./keep";
import { runsNow, slipsOf, type Run } from "./runs";
import { about, head, inCrate, short, whole, type Fields, type Slip, type TestAsk, type TestSlip } from "./slips";

export interface Crate { id?: string; code: string; name?: string; origin?: string }
export interface Cell {
  id: string; code: string; crate: string; verdict: string; reasons?: string; next_test?: string; marking?: string; voltage_class?: string; shape?: string; origin?: string;
  look?: string; note?: string; found_v?: number; rated_ah?: number; pack?: string; capacity_ah?: number; capacity_sd_ah?: number; resistance_ohm?: number; resistance_sd_ohm?: number;
  results?: Result[]; /* of its tests, where they are known here */
  waits?: number;     /* slips about it that are not sent */
}
export interface Tool { name: string; kind: string; ohm?: number; tolerance_pct?: number }
export interface Trouble { status: number; detail: string; field: string; stored?: Record<string, unknown>; sent?: Record<string, unknown> }
/** n: the order of writing. trouble: it waits for a person. */
export interface Entry { n: number; slip: Slip; trouble?: Trouble }

let kept: Kept | null = null;
let last = 0;
export const bench = {
  ready: false, lasting: true, sending: "" as "" | "sending" | "away" | "unpaired" | "later",
  queue: [] as Entry[], damaged: [] as Entry[], base: new Map<string, Cell>(), cells: new Map<string, Cell>(), crates: new Map<string, Crate>(), baseRuns: new Map<string, Run>(), runs: new Map<string, Run>(), tools: [] as Tool[],
};
const hearers = new Set<() => void>();

/* What a slip does to the cells here. */
function lay(cells: Map<string, Cell>, slip: Slip): void {
  if (slip.kind === "cell") {
    const { kind: _kind, at: _at, ...fields } = slip;
    cells.set(slip.id, { ...(short(fields) as Partial<Cell>), id: slip.id, code: slip.code, crate: slip.crate, verdict: "untested", results: [] });
    return;
  }
  const id = about(slip), cell = cells.get(id);
  if (slip.kind === "remove" && cell) cells.delete(id);
  if (!cell || slip.kind === "remove" || slip.kind === "crate" || slip.kind === "run" || slip.kind === "reading") return;
  if (slip.kind === "change") { cells.set(id, { ...cell, ...(Object.fromEntries(Object.entries(slip.set).map(([key, value]) => [key, value ?? undefined]))) }); return; }
  const known = resultsSoFar(cell);
  try {
    cells.set(id, { ...cell, results: [...known, ...(resultsOf(slip, { ...cell, results: known }, bench.tools) ?? [])] });
  } catch { /* the laptop will say what is wrong with it */ }
}

/** Where the tests themselves are not known here, what the laptop made of them stands for them. */
export function resultsSoFar(cell: Cell): Result[] {
  if (cell.results) return cell.results;
  const one = (kind: string, value?: number, sd?: number): Result[] => (value !== undefined && sd !== undefined ? [{ kind, value, sd }] : []);
  return [...one("capacity_ah", cell.capacity_ah, cell.capacity_sd_ah), ...one("resistance_10s_ohm", cell.resistance_ohm, cell.resistance_sd_ohm)];
}

function look(): void {
  const cells = new Map(bench.base), touched = new Map<string, number>();
  for (const { slip } of bench.queue) {
    lay(cells, slip);
    touched.set(about(slip), (touched.get(about(slip)) ?? 0) + 1);
  }
  for (const [id, waits] of touched) {
    const cell = cells.get(id), told = cell ? judge({ ...cell, results: resultsSoFar(cell) }) : null;
    if (cell) cells.set(id, { ...cell, waits, ...(told ?? {}) });
  }
  bench.cells = cells;
  bench.runs = runsNow(bench.baseRuns, bench.queue.map((entry) => entry.slip));
  hearers.forEach((hear) => hear());
}
export const changed = look;

export async function keepSteps(steps: Step[]): Promise<void> {
  await open();
  await kept?.write(steps);
}

/* What came too late for the first look is fetched when the laptop is in reach again. */
addEventListener("online", () => void core().then((there) => { if (there && bench.ready) look(); }));

let opening: Promise<void> | null = null;
export function open(): Promise<void> {
  opening ??= (async () => {
    kept = await keep();
    bench.lasting = kept.lasting;
    /* A damaged slip would stop all that come after it; it stays kept, and the page says so. */
    const queue = (await kept.all<Entry>("queue")).sort((a, b) => a.n - b.n);
    bench.queue = queue.filter((entry) => whole(entry.slip));
    bench.damaged = queue.filter((entry) => !whole(entry.slip));
    for (const cell of await kept.all<Cell>("cells")) bench.base.set(cell.id, cell);
    for (const crate of await kept.all<Crate>("crates")) bench.crates.set(crate.code, crate);
    const runs = await kept.all<Run>("runs"), alone = runs.filter((run) => run.readings.some((r) => !r.id));
    for (const run of runs) if (!alone.includes(run)) bench.baseRuns.set(run.id, run);
    bench.tools = await kept.all<Tool>("tools");
    last = bench.queue[bench.queue.length - 1]?.n ?? 0;
    bench.ready = true;
    look();
    void core().then(look);
    /* kept by an older page, which told nobody of them */
    for (const run of alone) await writeDown(slipsOf(run), [{ shelf: "runs", remove: run.id }]);
  })();
  return opening;
}

/* The order of writing, by the clock with chance behind it: two windows that write at once never take each other's place. */
const place = (): number => (last = Math.max(last + 1, Date.now() * 1000 + Math.floor(Math.random() * 1000)));

/** Writes slips down, together with other things that belong to them. They are kept when this is done. */
export async function write(slips: Slip[], more: Step[] = []): Promise<void> {
  await open();
  await writeDown(slips, more);
}
async function writeDown(slips: Slip[], more: Step[]): Promise<void> {
  const entries = slips.map((slip): Entry => ({ n: place(), slip }));
  const crates = slips.flatMap((slip) => (slip.kind === "crate" && !bench.crates.has(slip.code) ? [{ code: slip.code, ...(slip.name ? { name: slip.name } : {}) }] : []));
  await kept?.write([...entries.map((put): Step => ({ shelf: "queue", put })), ...crates.map((put): Step => ({ shelf: "crates", put })), ...more]);
  crates.forEach((crate) => bench.crates.set(crate.code, crate));
  bench.queue.push(...entries);
  look();
  waker();
}
/** Set by send.ts. */
let waker = (): void => undefined;
export const wakes = (wake: () => void): void => { waker = wake; };

/** Takes back what was written last about these rows: what is not sent yet is simply gone, the rest is taken back by a slip. */
export async function takeBack(slip: Slip): Promise<void> {
  const entry = bench.queue.find((one) => one.slip.id === slip.id);
  if (entry && !sent.has(entry.n)) {
    bench.queue = bench.queue.filter((one) => one !== entry); /* before anything else, or the sender may take it meanwhile */
    try { await keepSteps([{ shelf: "queue", remove: entry.n }]); } catch (error) {
      bench.queue = [...bench.queue, entry].sort((a, b) => a.n - b.n);
      throw error;
    } finally { look(); }
  } else if (slip.kind === "change") {
    await write([{ ...head(), kind: "change", cell: slip.cell, was: slip.set, set: slip.was }]);
  } else {
    await write([{ ...head(), kind: "remove", row: slip.id }]);
  }
}
export async function throwDamaged(): Promise<void> {
  await keepSteps(bench.damaged.map(({ n }) => ({ shelf: "queue", remove: n })));
  bench.damaged = [];
  look();
}

/** On their way: they may have arrived although no answer came. */
export const sent = new Set<number>();

const nulls = new Set(["found_v", "rated_ah"]);
/** A change of fields; null: nothing differs. */
export function changeOf(cell: Cell, set: Partial<Fields>): Slip | null {
  const was: Partial<Fields> = {}, now: Partial<Fields> = {};
  for (const key of Object.keys(set) as (keyof Fields)[]) {
    const before = cell[key as keyof Cell] ?? (nulls.has(key) ? null : key === "voltage_class" ? "unknown" : "");
    if (set[key] === before) continue;
    Object.assign(was, { [key]: before });
    Object.assign(now, { [key]: set[key] });
  }
  return Object.keys(now).length ? { ...head(), kind: "change", cell: cell.id, was, set: now } : null;
}

export const testOf = (cell: Cell, ask: TestAsk): TestSlip => ({ ...head(), kind: "test", cell: cell.id, ...short(ask) });
export const waiting = (): Entry[] => bench.queue.filter((entry) => !entry.trouble);
export const troubled = (): Entry[] => bench.queue.filter((entry) => entry.trouble);
/** Held up by a trouble about the same cell or its crate. */
export const heldUp = (entry: Entry): boolean =>
  bench.queue.some((other) => other.trouble && other.n < entry.n && (about(other.slip) === about(entry.slip) || about(other.slip) === inCrate(entry.slip)));

export function useBench(): typeof bench {
  const [, again] = useState(0);
  useEffect(() => {
    const hear = (): void => again((n) => n + 1);
    hearers.add(hear);
    void open();
    return () => void hearers.delete(hear);
  }, []);
  return bench;
}
