// SPDX-License-Identifier: GPL-3.0-or-later
// The verdict of a cell as its readings arrive, by the core in the page: each reading through the figure of its method, all of
// them through the figure of the verdict. What the laptop stores rests on the same calculations (desk/crate_methods.c).
import { here, type Core } from "./core";
import type { TestAsk } from "./slips";

export interface Result { kind: string; value: number; sd?: number }
export interface Judged { verdict: string; reasons: string; next_test: string; capacity_ah?: number; capacity_sd_ah?: number }
export interface Facts { voltage_class?: string; found_v?: number | null; look?: string; rated_ah?: number | null; results: Result[] }
interface Tool { name: string; kind: string; ohm?: number; tolerance_pct?: number }

const usual = { meter_percent: 0.5, meter_digits: 2, meter_step_v: 0.001 };
const known = (x: number | undefined | null): x is number => typeof x === "number" && Number.isFinite(x);
type Given = Record<string, number | string | boolean | number[] | undefined>;

function took(answer: Record<string, unknown>, kinds: [kind: string, key: string, sd?: string][]): Result[] {
  return kinds.flatMap(([kind, key, sd]) => {
    const value = answer[key], spread = sd ? answer[sd] : undefined;
    return typeof value === "number" ? [{ kind, value, ...(typeof spread === "number" ? { sd: spread } : {}) }] : [];
  });
}

function resistor(core: Core, t: TestAsk, cell: Facts, tools: Tool[]): Result[] {
  const tool = tools.find((one) => one.name === t.resistor);
  const given: Given = {
    ...usual, load_ohm: tool?.ohm ?? t.load_ohm, load_tolerance_pct: tool ? tool.tolerance_pct ?? 5 : 1, lead_tolerance_ohm: 0, times_s: t.times_s, volts_v: t.volts_v,
    open_before_v: t.open_before_v, open_after_v: t.open_after_v, open_after_s: t.open_after_s ?? 0, temp_c: t.temp_c, voltage_class: cell.voltage_class,
  };
  return took(core.run("resistor_discharge", given), [["capacity_ah", "capacity_ah", "capacity_sd_ah"], ["drawn_ah", "drawn_ah"], ["drawn_wh", "drawn_wh"], ["resistance_10s_ohm", "resistance_10s_ohm", "resistance_10s_sd_ohm"]]);
}

function charger(core: Core, t: TestAsk, cell: Facts): Result[] {
  const ah = t.capacity_ah ?? 0, ohm = cell.results.filter((r) => r.kind === "resistance_10s_ohm" && known(r.sd)).pop() ?? { value: 0.1, sd: 0.03 };
  const given: Given = { capacity_ah: ah, capacity_sd_ah: 0.03 * ah, rate_a: t.current_a, temp_c: t.temp_c, to_rate_a: 0.2 * ah, resistance_ohm: ohm.value, resistance_sd_ohm: ohm.sd, voltage_class: cell.voltage_class };
  return took(core.run("capacity_restated", given), [["capacity_ah", "restated_ah", "restated_sd_ah"]]);
}

/** Where a discharge of a class ends, V. */
export const ends: Record<string, number> = { "4v2": 3.0, "4v35": 3.0, lfp: 2.5 };
const CHARGE_PCT = 1; /* of a logged charge, as desk/crate_methods.c has it */

function logged(core: Core, t: TestAsk, cell: Facts): Result[] {
  const end_v = t.end_v ?? ends[cell.voltage_class ?? ""] ?? 3, out = core.run("log_capacity", { times_s: t.times_s, volts_v: t.volts_v, amps_a: t.amps_a, end_v });
  const drawn = took(out, [["drawn_ah", "drawn_ah"], ["drawn_wh", "drawn_wh"]]), ah = Number(out["drawn_ah"]);
  if (out["reached"] !== true || !(ah > 0)) return drawn;
  const sd = (Math.max(usual.meter_percent, CHARGE_PCT) / 100 / Math.sqrt(3)) * ah, ohm = cell.results.filter((r) => r.kind === "resistance_10s_ohm" && known(r.sd)).pop() ?? { value: 0.1, sd: 0.03 };
  const given: Given = { capacity_ah: ah, capacity_sd_ah: sd, rate_a: Number(out["mean_a"]), end_v, temp_c: t.temp_c, to_rate_a: 0.2 * ah, resistance_ohm: ohm.value, resistance_sd_ohm: ohm.sd, voltage_class: cell.voltage_class };
  return [...drawn, ...took(core.run("capacity_restated", given), [["capacity_ah", "restated_ah", "restated_sd_ah"]])];
}

function pulse(core: Core, t: TestAsk): Result[] {
  const out = core.run("pulse_resistance", { times_s: t.times_s, volts_v: t.volts_v, amps_a: t.amps_a, at_s: 10 });
  const sd = Math.hypot((usual.meter_digits * usual.meter_step_v * Math.sqrt(2 / 3)) / Math.abs(Number(out["step_a"])), (Number(out["resistance_ohm"]) * usual.meter_percent) / 100);
  return took(out, [["resistance_10s_ohm", "resistance_ohm"], ["resistance_2s_ohm", "resistance_2s_ohm"], ["resistance_20s_ohm", "resistance_20s_ohm"]]).map((r) => ({ ...r, sd }));
}

function loads(core: Core, t: TestAsk): Result[] {
  const [u1_v, u2_v] = t.pulse_v ?? [], [i1_a, i2_a] = t.pulse_a ?? [];
  return took(core.run("resistance_two_pulse", { ...usual, u1_v, u2_v, i1_a, i2_a }), [["resistance_10s_ohm", "resistance_ohm", "resistance_sd_ohm"]]);
}

/** What a test shows; null: the core is not there yet. Wrong readings throw a Problem that names the field. */
export function resultsOf(t: TestAsk, cell: Facts, tools: Tool[]): Result[] | null {
  const core = here();
  if (!core) return null;
  if (t.method === "resistor") return resistor(core, t, cell, tools);
  if (t.method === "charger") return charger(core, t, cell);
  if (t.method === "two_pulse") return loads(core, t);
  if (t.method === "log") return logged(core, t, cell);
  if (t.method === "pulse") return pulse(core, t);
  if (t.method === "hold") return [{ kind: "rest_24h_v", value: t.volts_v?.[0] ?? NaN }];
  return t.method === "flag" && t.flag ? [{ kind: t.flag, value: 1 }] : [];
}

function together(core: Core, results: Result[]): { value: number; sd: number } | null {
  const good = results.filter((r) => known(r.sd) && r.sd > 0);
  if (!good.length) return null;
  const { value, sd } = core.run("combine_tests", { values: good.map((r) => r.value), sds: good.map((r) => r.sd ?? 0) });
  return typeof value === "number" && typeof sd === "number" ? { value, sd } : null;
}

export function judge(cell: Facts): Judged | null {
  const core = here();
  if (!core) return null;
  const of = (kind: string): Result[] => cell.results.filter((r) => r.kind === kind);
  const seen = (kind: string): boolean => of(kind).length > 0;
  const looks = (cell.look ?? "").split(" ").filter(Boolean);
  const capacity = of("capacity_ah").filter((r) => known(r.sd) && r.sd > 0), ohm = together(core, of("resistance_10s_ohm")), leak = together(core, of("leak_mv_day"));
  const given: Given = {
    voltage_class: cell.voltage_class || "unknown", found_v: cell.found_v ?? undefined, rated_ah: cell.rated_ah ?? undefined,
    look: [...looks.filter((word) => word !== "hot"), ...(seen("open_circuit") ? ["open"] : [])].join(" ") || "ok",
    ...(capacity.length ? { capacity_ah: capacity.map((r) => r.value), capacity_sd_ah: capacity.map((r) => r.sd ?? 0) } : {}),
    ...(ohm ? { resistance_mohm: ohm.value * 1000, resistance_sd_mohm: ohm.sd * 1000 } : {}), ...(leak ? { leak_mv_day: leak.value, leak_sd_mv_day: leak.sd } : {}),
    rest_24h_v: of("rest_24h_v").pop()?.value, recovered: seen("recovered"), no_taper: seen("no_taper"), hot_on_charge: seen("hot_on_charge") || looks.includes("hot"),
  };
  const told = core.run("cell_verdict", given), text = (key: string): string => (typeof told[key] === "string" ? String(told[key]) : "");
  return {
    verdict: text("verdict"), reasons: text("reasons"), next_test: text("next_test") && `${text("next_test")}: ${text("next_what")}`,
    ...(typeof told["fused_ah"] === "number" ? { capacity_ah: told["fused_ah"], capacity_sd_ah: Number(told["fused_sd_ah"]) } : {}),
  };
}
