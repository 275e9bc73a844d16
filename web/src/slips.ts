// SPDX-License-Identifier: GPL-3.0-or-later
// What a person writes down at the bench, one thing a slip (docs/slips.md). A slip's id is made here, so that it counts once
// however often it is sent.

export interface Fields { code: string; marking: string; voltage_class: string; shape: string; origin: string; look: string; note: string; found_v: number | null; rated_ah: number | null }
export interface TestAsk {
  method: "resistor" | "log" | "pulse" | "two_pulse" | "rest" | "hold" | "charger" | "flag"; resistor?: string; load_ohm?: number; temp_c?: number; times_s?: number[]; volts_v?: number[]; amps_a?: number[]; end_v?: number;
  open_before_v?: number; open_after_v?: number; open_after_s?: number; capacity_ah?: number; current_a?: number; pulse_v?: number[]; pulse_a?: number[]; flag?: string; note?: string;
}
interface Head { id: string; at: string }
export type CrateSlip = Head & { kind: "crate"; code: string; name?: string; origin?: string };
export type CellSlip = Head & { kind: "cell"; crate: string; code: string } & Partial<Fields>;
export type ChangeSlip = Head & { kind: "change"; cell: string; was: Partial<Fields>; set: Partial<Fields> };
/** run: the discharge under way that it finishes. */
export type TestSlip = Head & { kind: "test"; cell: string; run?: string } & TestAsk;
export type RunSlip = Head & { kind: "run"; cell: string; every_s: number; resistor?: string; load_ohm?: number; temp_c?: number; open_before_v?: number };
export type ReadingSlip = Head & { kind: "reading"; run: string; volts?: number; disconnected?: true };
export type RemoveSlip = Head & { kind: "remove"; row: string };
export type Slip = CrateSlip | CellSlip | ChangeSlip | TestSlip | RemoveSlip | RunSlip | ReadingSlip;

let lastTick = 0;
/** UUID version 7 (RFC 9562, section 5.7): milliseconds of the wall clock, ten bits that count, random bits. Each sorts after the one
    before, also in the same millisecond or when the clock was put back (section 6.2). */
export function uuid7(now = Date.now()): string {
  const random = crypto.getRandomValues(new Uint8Array(10)), bytes = new Uint8Array(16), tick = (lastTick = Math.max(lastTick + 1, now * 1024));
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(tick / 1024 / 2 ** (40 - 8 * i)) % 256;
  bytes.set(random, 6);
  bytes[6] = 0x70 | (Math.floor(tick / 256) % 4);
  bytes[7] = tick % 256;
  bytes[8] = 0x80 | ((random[2] ?? 0) & 0x3f);
  const hex = [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

export const stamp = (now = Date.now()): string => new Date(now).toISOString().replace(/\.\d+Z$/, "Z");
export const head = (): Head => ({ id: uuid7(), at: stamp() });

/** What is empty is not told: slips stay short enough for a code. */
export function short<T extends object>(values: T): T {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== "" && value !== null && value !== undefined)) as T;
}

/** The cell that a slip is about, by its id; a crate by its label. */
export function about(slip: Slip): string {
  if (slip.kind === "crate") return `crate ${slip.code.toLowerCase()}`;
  if (slip.kind === "reading") return slip.run;
  return slip.kind === "cell" || slip.kind === "run" ? slip.id : slip.kind === "remove" ? slip.row : slip.cell;
}
/** What it hangs on: a cell on its crate, a discharge on its cell, a test on the discharge that it finishes. */
export const inCrate = (slip: Slip): string => (slip.kind === "cell" ? `crate ${slip.crate.toLowerCase()}` : slip.kind === "run" ? slip.cell : slip.kind === "test" ? slip.run ?? "" : "");

/** How a cell or a crate may be called; the store has the same rule. */
export const labelFits = (label: string): boolean => /^[A-Za-z0-9][A-Za-z0-9._/-]{0,31}$/.test(label);

/* What each kind must have; the laptop judges the rest. */
const text = (x: unknown): boolean => typeof x === "string", number = (x: unknown): boolean => typeof x === "number" && Number.isFinite(x);
const record = (x: unknown): boolean => typeof x === "object" && x !== null && !Array.isArray(x) && Object.values(x).every((one) => one === null || text(one) || number(one));
const needs: Record<Slip["kind"], Record<string, (x: unknown) => boolean>> = {
  crate: { code: text }, cell: { crate: text, code: text }, change: { cell: text, was: record, set: record }, test: { cell: text, method: text },
  run: { cell: text, every_s: number }, reading: { run: text }, remove: { row: text },
};
const numbers = new Set(["found_v", "rated_ah", "volts", "load_ohm", "temp_c", "open_before_v"]);

/** A slip that this page can show, send and take back: a damaged one must not stop those behind it. */
export function whole(slip: unknown): slip is Slip {
  if (typeof slip !== "object" || slip === null) return false;
  const fields = slip as Record<string, unknown>, kind = needs[fields["kind"] as Slip["kind"]];
  if (!kind || !text(fields["id"]) || fields["id"] === "" || !text(fields["at"]) || Number.isNaN(Date.parse(fields["at"] as string))) return false;
  const odd = Object.entries(fields).some(([key, value]) => value !== null && numbers.has(key) && !number(value));
  return !odd && Object.entries(kind).every(([key, fits]) => fits(fields[key]));
}

export const format = "lanewick.slips/1";
export const bundle = (slips: Slip[]): string => JSON.stringify({ format, slips });

/** One slip by itself is short enough. */
export const fits = (slip: Slip, most: number): boolean => new TextEncoder().encode(bundle([slip])).length <= most;

/** Bundles of at most so many bytes each, for a run of codes; every one can be taken in by itself, in their order. */
export function bundles(slips: Slip[], most: number): string[] {
  const out: string[] = [];
  let part: Slip[] = [];
  const bytes = (text: string): number => new TextEncoder().encode(text).length;
  for (const slip of slips) {
    if (part.length && bytes(bundle([...part, slip])) > most) { out.push(bundle(part)); part = []; }
    part.push(slip);
  }
  return part.length ? [...out, bundle(part)] : out;
}

/** The slips of a bundle or of lines of bundles, and how many were damaged; null when the text is no bundle. */
export function unbundle(text: string): { slips: Slip[]; damaged: number } | null {
  try {
    const parts = text.trim().startsWith("{") && text.includes("\n{") ? text.trim().split(/\n(?=\{)/) : [text];
    const found = parts.map((part) => JSON.parse(part) as { format?: string; slips?: unknown[] });
    if (!found.every((b) => b.format === format && Array.isArray(b.slips))) return null;
    const all = found.flatMap((b) => b.slips ?? []), slips = all.filter(whole);
    return { slips, damaged: all.length - slips.length };
  } catch {
    return null;
  }
}

/** The label after this one: A9, A10; NS1-099, NS1-100. */
export function nextLabel(label: string): string {
  const parts = /^(.*?)(\d+)$/.exec(label);
  if (!parts) return label ? `${label}1` : "1";
  const [, before = "", digits = "0"] = parts;
  return before + String(Number(digits) + 1).padStart(digits.length, "0");
}
