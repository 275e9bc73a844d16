// SPDX-License-Identifier: GPL-3.0-or-later
// Discharges under way, as the laptop last told them, and on top of them what was written down here and is not sent yet. Every phone
// of the bench sees them and may take the next reading; times are those of the wall clock.
import { head, type Slip } from "./slips";

/** Times in milliseconds; resistor: by its name, else by its value. */
export interface Run { id: string; cell: string; started: number; every_s: number; resistor?: string; load_ohm?: number; temp_c?: number; open_before_v?: number; readings: { id: string; at: number; v: number }[]; ended?: number }
export interface StoredRun { id: string; cell: string; code: string; at: string; every_s: number; resistor?: string; load_ohm: number; temp_c?: number; open_before_v?: number; ended?: string; readings: { id: string; at: string; volts: number }[] }

export function runOf(s: StoredRun): Run {
  const { at, ended, readings, load_ohm, code: _code, ...rest } = s;
  return { ...rest, ...(s.resistor ? {} : { load_ohm }), started: Date.parse(at), ...(ended ? { ended: Date.parse(ended) } : {}), readings: readings.map((r) => ({ id: r.id, at: Date.parse(r.at), v: r.volts })) };
}

function lay(runs: Map<string, Run>, slip: Slip): void {
  if (slip.kind === "run") {
    const { kind: _kind, at, ...rest } = slip;
    runs.set(slip.id, { ...rest, started: Date.parse(at), readings: [] });
  } else if (slip.kind === "test") {
    if (slip.run) runs.delete(slip.run);
  } else if (slip.kind === "remove") {
    runs.delete(slip.row);
    for (const run of runs.values()) if (run.readings.some((r) => r.id === slip.row)) runs.set(run.id, { ...run, readings: run.readings.filter((r) => r.id !== slip.row) });
  } else if (slip.kind === "reading") {
    const run = runs.get(slip.run), at = Date.parse(slip.at);
    if (!run) return;
    const { volts } = slip;
    runs.set(run.id, volts === undefined ? { ...run, ended: at } : { ...run, readings: [...run.readings, { id: slip.id, at, v: volts }].sort((a, b) => a.at - b.at) });
  }
}

export function runsNow(base: Map<string, Run>, slips: Slip[]): Map<string, Run> {
  const runs = new Map(base);
  for (const slip of slips) lay(runs, slip);
  return runs;
}

/** Slips for a discharge that an older page kept for itself. */
export function slipsOf(run: Run): Slip[] {
  const { id, cell, every_s, started, readings, ended: _ended, ...rest } = run, at = (ms: number): string => new Date(ms).toISOString().replace(/\.\d+Z$/, "Z");
  return [{ kind: "run", id, at: at(started), cell, every_s, ...rest }, ...readings.map((r): Slip => ({ ...head(), kind: "reading", at: at(r.at), run: id, volts: r.v }))];
}
