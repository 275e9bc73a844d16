// SPDX-License-Identifier: GPL-3.0-or-later
// One lamp of a brief as the figure lamp_nights of the core takes it, so that its dark nights are computed on this device. What the
// brief leaves open stays open: the figure has the brief's own defaults.
import type { Value } from "./core";
import { Problem } from "./problem";
import type { Brief, LampKind, Part, Size, Span } from "./shapes";
import { kinds } from "./start";
import { say } from "./words";

type Values = Record<string, Value | undefined>;
type Sized = Pick<Size, "panel" | "panels" | "cell" | "series" | "parallel" | "charger" | "driver"> & { board?: unknown; trimmed?: boolean };
/** What a plan has found besides the sizes. */
export interface Found { head_w?: number; tilt_deg?: number; facing_deg?: number; seed?: number }

const SHARED_EFFICACY = 100; /* lm/W that a brief assumes */
const list = (brief: Brief, what: string): Part[] => (brief.shelf[what] as Part[] | undefined) ?? [];
const of = (part: Record<string, unknown> | undefined, key: string): Value | undefined => part?.[key] as Value | undefined;
const named = (parts: Part[], name: unknown): Part | undefined => parts.find((p) => p.name === name) ?? (parts.length === 1 ? parts[0] : undefined);
/** By its label, else as rated. */
const watts = (panel: Part | undefined): number => (panel?.["vmp_v"] === undefined ? panel?.watts ?? NaN : Number(panel["vmp_v"]) * Number(panel["imp_a"]));
const range = (part: Part | undefined): [number, number] => {
  const series = part?.["series"] as number | [number, number] | undefined;
  return Array.isArray(series) ? series : [series ?? 1, series ?? 16];
};

function kindOf(brief: Brief, name: string): LampKind {
  const lamps = kinds(brief) as LampKind[];
  return lamps.find((lamp) => lamp.name === name) ?? lamps[0] ?? {};
}

function headWatts(brief: Brief, lamp: LampKind): number | undefined {
  const watts = lamp["head_w"] ?? brief.want["head_w"], lumens = lamp.lumens ?? brief.want.lumens;
  const efficacy = Number(lamp["efficacy_lm_w"] ?? brief.want["efficacy_lm_w"] ?? SHARED_EFFICACY);
  return typeof watts === "number" ? watts : lumens === undefined ? undefined : lumens / efficacy;
}

function place(brief: Brief, found: Found): Values {
  const { place: p, build } = brief, dust = p["dust"] as Record<string, unknown> | undefined;
  return {
    lat_deg: p.lat_deg, lon_deg: p.lon_deg, elev_m: p.elev_m, utc_offset_h: p.utc_offset_h, horizon_deg: of(p, "horizon_deg"), albedo: of(p, "albedo"),
    dust_loss_per_day: of(dust, "loss_per_day"), dust_most_loss: of(dust, "most_loss"), dust_wash_mm: of(dust, "wash_rain_mm"), dust_cleaned_days: of(dust, "cleaned_every_days"),
    tilt_deg: found.tilt_deg ?? of(build, "tilt_deg"), facing_deg: found.facing_deg ?? of(build, "facing_deg"),
    wire_ohm: of(build, "wire_ohm"), box_sun_share: of(build, "box_sun_share"), box_absorbs: of(build, "box_absorbs"),
  };
}

function parts(brief: Brief, size: Sized): Values {
  const panel = named(brief.shelf.panels, size.panel), cell = named(brief.shelf.cells, size.cell), charger = named(list(brief, "chargers"), size.charger);
  const driver = named(list(brief, "drivers"), size.driver), board = size.board ? list(brief, "boards").find((b) => b.name === size.board) : undefined;
  if (cell && cell.capacity_ah === undefined) throw new Problem("away", say("This needs the laptop: the cells of this brief come from a list or a crate."));
  return {
    panel_w: panel?.watts ?? watts(panel), box_panel_w: watts(brief.shelf.panels[0]), voc_v: of(panel, "voc_v"), isc_a: of(panel, "isc_a"), vmp_v: of(panel, "vmp_v"), imp_a: of(panel, "imp_a"),
    panel_cells: of(panel, "cells"), panel_tolerance_pct: of(panel, "tolerance_pct"), panels: size.panels,
    charger: of(charger, "kind"), end_v_per_cell: of(charger, "end_v_per_cell"), charger_most_input_v: of(charger, "most_input_v"), charger_most_a: of(charger, "most_a"),
    charger_drop_v: of(charger, "drop_v"), charger_efficiency: of(charger, "efficiency"), charger_standby_a: of(charger, "standby_a"), cold_stop_c: of(charger, "cold_stop_c"), hot_stop_c: of(charger, "hot_stop_c"),
    class: of(cell, "class"), series: size.series, parallel: size.parallel, capacity_ah: cell?.capacity_ah, capacity_sd_pct: of(cell, "capacity_sd_pct"), health: of(cell, "health"), resistance_ohm: of(cell, "resistance_ohm"),
    board_low_v: of(board, "low_v"), driver: of(driver, "kind"), driver_efficiency: of(driver, "efficiency"), head_v: of(driver, "head_v"), driver_low_stop_v: of(driver, "low_stop_v_per_cell"), driver_standby_a: of(driver, "standby_a"),
  };
}

const written = (spans: Span[]): string => spans.map((s) => `${s.from} ${s.to} ${s.level}`).join("; ");

/** The inputs of lamp_nights. */
export function lampInputs(brief: Brief, kind: string, size: Sized, found: Found = {}): Values {
  const lamp = kindOf(brief, kind), { want } = brief, spans = lamp.schedule ?? want.schedule;
  return {
    ...place(brief, found), ...parts(brief, size), head_w: found.head_w ?? headWatts(brief, lamp), schedule: spans?.length ? written(spans) : undefined,
    dusk_sun_deg: of(want, "dusk_sun_deg"), dark_nights_per_year: want.dark_nights_per_year, sure_share: of(want, "sure_share"), planned_years: want.planned_years, seed: found.seed,
  };
}

/** Whether the brief says something that only the laptop counts. */
export function leavesOut(brief: Brief, kind: string, size: Sized): boolean {
  const lamp = kindOf(brief, kind), { want, place: p } = brief;
  const loads = (lamp["other_loads"] ?? want["other_loads"] ?? []) as unknown[];
  return loads.length > 0 || (want["switch"] ?? "driver") !== "driver" || want["dim_when_low"] !== undefined || want["lane"] !== undefined || p["monthly"] !== undefined || p["weather_file"] !== undefined || (size.trimmed ?? false);
}

/** A lamp to begin with where nothing is planned: the first parts of the shelf that go together. */
export function firstSize(brief: Brief): Sized {
  const charger = list(brief, "chargers")[0], driver = list(brief, "drivers")[0], boards = list(brief, "boards"), panel = brief.shelf.panels[0], cell = brief.shelf.cells[0];
  const [low, high] = [0, 1].map((end) => (end ? Math.min : Math.max)(range(charger)[end] ?? 1, range(driver)[end] ?? 1));
  const fits = (series: number): boolean => series >= (low ?? 1) && series <= (high ?? 1);
  const board = boards.find((b) => fits(range(b)[0])), series = board ? range(board)[0] : low ?? 1;
  return { panel: panel?.name ?? "", panels: 1, cell: cell?.name ?? "", series, parallel: 2, charger: charger?.name ?? "", driver: driver?.name ?? "", board: board?.name };
}
