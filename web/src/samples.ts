// SPDX-License-Identifier: GPL-3.0-or-later
// Samples of a logged test out of a text: lines of time, volts and amperes, typed or from a logger's file, in the columns that their
// first line names or in this order. Wrong lines throw a sentence that names them.
import { typed } from "./numbers";
import { Problem } from "./problem";
import { say } from "./words";

/** notes: what was read otherwise than it stands there, for the person to know. */
export interface Samples { times_s: number[]; volts_v: number[]; amps_a: number[]; notes: string[] }

export const MOST_SAMPLES = 5000; /* in one slip */
const names: [RegExp, column: number, factor: number][] = [
  [/^(time|t|times|seconds|elapsed)([ _(\[]*(s|sec|seconds)?[)\]]*)$/i, 0, 1], [/^(time|t|minutes)[ _(\[]*(min|m|minutes)?[)\]]*$/i, 0, 60], [/^(time|t|hours)[ _(\[]*(h|hours)?[)\]]*$/i, 0, 3600],
  [/^(voltage|volts|volt|u|v)[ _(\[]*v?[)\]]*$/i, 1, 1], [/^(voltage|volts|u|v)[ _(\[]*mv[)\]]*$/i, 1, 1e-3],
  [/^(discharge_)?(current|amps|amperes|i|a)[ _(\[]*a?[)\]]*$/i, 2, 1], [/^(discharge_)?(current|amps|i|a)?[ _(\[]*ma[)\]]*$/i, 2, 1e-3],
];

/** Seconds; minutes and hours with colons; a date with its time. */
function seconds(text: string): number {
  if (/^\d+(:\d{1,2}){1,2}([.,]\d+)?$/.test(text)) return text.split(":").reduce((sum, part) => sum * 60 + typed(part), 0);
  if (/^\d{4}-\d\d-\d\d/.test(text)) return Date.parse(text.replace(" ", "T")) / 1000;
  return typed(text);
}

const partsOf = (line: string): string[] => {
  const mark = line.includes("\t") ? "\t" : line.includes(";") ? ";" : / \S/.test(line) && !line.includes(", ") && !/^\d{4}-/.test(line) && !/[a-z]/i.test(line) ? " " : ",";
  return line.split(mark).map((part) => part.trim()).filter((part, i, all) => part !== "" || (mark !== " " && i < all.length - 1));
};

interface Columns { place: [number, number, number]; factor: [number, number, number] }
function columns(line: string): Columns | null {
  const found: Columns = { place: [-1, -1, -1], factor: [1, 1, 1] };
  partsOf(line).forEach((name, i) => {
    const fit = names.find(([shape, column]) => shape.test(name) && found.place[column] === -1);
    if (fit) { found.place[fit[1]] = i; found.factor[fit[1]] = fit[2]; }
  });
  return found.place.every((place) => place >= 0) ? found : null;
}

/** Evenly fewer, the first and the last among them. */
function thinned(list: number[], n: number): number[] {
  return Array.from({ length: n }, (_, i) => list[Math.round((i * (list.length - 1)) / (n - 1))] ?? NaN);
}

export function samplesOf(text: string): Samples {
  const lines = text.split(/\r?\n/).map((line, i): [string, number] => [line.trim(), i + 1]).filter(([line]) => line !== "" && !line.startsWith("#"));
  const first = lines[0]?.[0] ?? "", titled = /[a-z]{1,}/i.test(first) && !/^\d/.test(first), named = titled ? columns(first) : null;
  if (titled && !named) throw new Problem("wrong-input", say("The first line, “{0}”, names no columns of time, volts and amperes. Name them time_s, volts_v, amps_a.", first.slice(0, 80)));
  const { place, factor } = named ?? { place: [0, 1, 2], factor: [1, 1, 1] };
  const out: [number[], number[], number[]] = [[], [], []];
  for (const [line, number] of named ? lines.slice(1) : lines) {
    const parts = partsOf(line), values = [0, 1, 2].map((c) => (c === 0 ? seconds : typed)(parts[place[c] ?? 0] ?? "") * (factor[c] ?? 1));
    if (values.some((v) => !Number.isFinite(v))) throw new Problem("wrong-input", say("Line {0}, “{1}”: it needs time, volts and amperes, as in “60; 3.92; 1.02”.", number, line.slice(0, 60)));
    values.forEach((v, c) => out[c]?.push(v));
  }
  let [times_s, volts_v, amps_a] = out;
  const start = times_s[0] ?? 0, notes: string[] = [], n = times_s.length;
  times_s = times_s.map((t) => Math.round((t - start) * 1000) / 1000);
  if (amps_a.reduce((sum, a) => sum + a, 0) < 0 && (volts_v[n - 1] ?? 0) < (volts_v[0] ?? 0)) {
    amps_a = amps_a.map((a) => -a || 0);
    notes.push(say("The discharge stands there with a minus; it is counted as a plus."));
  }
  if (n > MOST_SAMPLES) {
    [times_s, volts_v, amps_a] = [thinned(times_s, MOST_SAMPLES), thinned(volts_v, MOST_SAMPLES), thinned(amps_a, MOST_SAMPLES)];
    notes.push(say("{0} samples are kept, evenly, of {1}.", MOST_SAMPLES, n));
  }
  return { times_s, volts_v, amps_a, notes };
}
