// SPDX-License-Identifier: GPL-3.0-or-later
// Shapes of the documents that the page reads and writes; docs/brief.md, docs/plan.md and docs/lane.md say what they mean.
import type { Band } from "./numbers";

export interface Span { from: string; to: string; level: number }
export interface LampKind { name?: string; count?: number; lumens?: number; schedule?: Span[]; [more: string]: unknown }
export interface Part { name?: string; count?: number; price: number; watts?: number; capacity_ah?: number; class?: string; [more: string]: unknown }
export interface Brief {
  format: "lanewick.brief/1"; name?: string;
  place: { name?: string; lat_deg: number; lon_deg: number; elev_m?: number; utc_offset_h?: number; wind?: { speed_m_s: number; speed_is: string; terrain?: string; source?: string }; gust_m_s?: number; [more: string]: unknown };
  want: { lumens?: number; lamps?: number | LampKind[]; schedule?: Span[]; dark_nights_per_year?: number; planned_years?: number; [more: string]: unknown };
  shelf: { currency?: { text?: string; decimals?: number }; panels: Part[]; cells: Part[]; [more: string]: unknown };
  build?: { mast?: { height_m?: number; soil?: string; collar_m?: number; [more: string]: unknown }; [more: string]: unknown };
}

export interface Size {
  panel_w: number; pack_wh: number; series: number; parallel: number; panel: string; panels: number; cell: string;
  charger: string; driver: string; trimmed: boolean; [more: string]: unknown;
}
export interface WhatIf { what: string; dark_per_year: Band }
export interface Lamp {
  name: string; kind: string; keeps_wish: boolean; near?: string; size: Size; tilt_deg: number; facing_deg: number; cost: number;
  nights: { dark_per_year: Band; by_month: number[]; years_simulated: number; sure_share: number; lowest_charge_share: number };
  limits: { month: number; what: string; more_panel?: WhatIf; more_pack?: WhatIf; dim?: WhatIf; trim?: WhatIf };
  light: { lumens: number; head_w: number; load_wh_night: number };
  energy: { month: number; night_h: number; panel_wh_day: number; load_wh_day: number; spilled_wh_day: number }[];
  pack?: { code?: string; crate?: string; voltage_class?: string; groups?: string[][]; weakest_ah?: number };
  years: { year: number; capacity_share: number; dark_per_year: Band }[];
  switch?: HandSwitch; mast?: PlannedMast;
}
export interface Option {
  kind: string; what: string; cost_per_lamp: number; dark_per_year: Band; keeps_wish: boolean; chosen: boolean; size: Size;
}
export interface Refusal { id: string; reason: string; remedy: string; source: string }
export interface Plan {
  format: string; name?: string; seed: number; brief: Brief; refused?: Refusal[]; left_out?: Refusal[];
  wish: { dark_nights_per_year: number; sure_share: number; planned_years: number; kept: boolean };
  lamps: Lamp[]; options: Option[]; lamps_without_parts: number; simulated_years: number;
  lane?: { kind: string; chosen: Omit<Layout, "places" | "in_words"> & { head: string | null; late_level: number | null }; masts: Mast[]; maintenance: number };
  cost: { total: number; per_lamp: number; currency: string; decimals: number; parts: { name: string; count: number; price: number; cost: number }[] };
  program: string; here?: boolean; job?: string; circuits?: Circuit[]; cautions: { at: string; text: string }[]; assumptions: { key: string; value: string; why: string }[];
}
export interface Climate {
  lat_deg: number; lon_deg: number; elev_m: number; basis: string; ghi_kwh_m2_day: number[]; ghi_spread_pct: number[];
  ghi_year_sd_pct: number[]; t_mean_c: number[]; rain_mm: number[];
}

export interface Layout {
  masts: number; side: string; height_m: number; tilt_deg: number; spacing_m: number; end_m: number; places: Mast[]; lumens_each: number; watts_each: number;
  watts_together: number; average_lx: number; minimum_lx: number; uniformity: number; in_words: string;
}
export interface Mast { x_m: number; y_m: number; height_m: number; turn_deg: number; tilt_deg: number }
export interface LaneLight {
  average_lx: number; minimum_lx: number; maximum_lx: number; uniformity: number; class: string | null; wanted_class_met: boolean | null;
  in_words: string; threshold_increment_pct: number; points: { x_m: number; y_m: number; horizontal_lx: number }[];
}
export interface Match {
  packs?: number; series: number; groups: string[][]; group_capacity_ah: number[]; weakest_ah: number | null; bound_ah: number | null;
  spread_pct?: number | null; left_out: string[]; notes?: string[]; cautions: string[];
}

export interface Middle { middle: number; low: number; high: number; worst_low: number; worst_high: number }
/** A switch made by hand, as planned. */
export interface HandSwitch {
  circuit: string; sensor: "comparator" | "transistors" | "panel"; parts: string; resistor_ohm: number; r1_ohm: number; r2_ohm: number; r3_ohm: number; delay_uf: number; delay_s: number;
  timer?: { resistor_ohm: number; capacitor_uf: number; output: number; hours: number; worst_low_h: number; worst_high_h: number };
  lower_level?: { on_ohm: number; off_ohm: number; capacitor_nf: number; level: number; worst_low: number; worst_high: number };
  on_full_lx: Middle; off_lx: Middle; nights_longer_min: number; nights_spread_min: number; standby_ma: number; standby_wh_month: number;
  own_light: { lx: number; limit_lx: number; stable: boolean; good: boolean };
}
export interface Wire { length_m: number; area_mm2: number }
/** One planned lamp as a circuit. */
export interface Circuit extends Partial<Readings> {
  kind: string; count: number; why_not?: string;
  parts?: { fuse_a: number; board_opens_a: number; panel_wire: Wire; pack_wire: Wire; head_wire: Wire; head: { strings: number; leds_in_series: number; led_ma: number; resistor_ohm: number; driver: string } };
}

export interface Reading { expected: number; low: number; high: number }
export interface Readings {
  refused?: boolean; findings?: { level: string; condition: string; text: string }[];
  conditions: Record<string, { text: string; points: Record<string, Reading> }>;
}
export interface MastAnswer {
  verdict: string; verdict_text: string; reasons: string[]; cautions: string[]; reserve?: number; sway_mm?: number; base_depth_m?: number; total_kg?: number;
  panel_n?: number; pipe_n?: number; moment_nm?: number;
}
/** A mast to be judged (lanewick.mast/1), as far as the page shows it. */
export interface MastDocument {
  wind?: { speed_m_s: number; speed_is: string; terrain: string }; panel: { area_m2: number; tilt_deg: number }; pipe: { material: string; height_m: number; diameter_mm: number; wall_mm: number };
  base: { soil: string; kind: string; collar_m?: number }; place: { people_below?: boolean };
}
/** A lamp's mast as planned; pole and what follows it only where the brief tells a wind. */
export interface PlannedMast extends MastAnswer { pole?: string; material?: string; diameter_mm?: number; wall_mm?: number; height_m?: number; depth_m?: number; collar_m?: number }
export interface FoundPlace { name: string; country: string; lat_deg: number; lon_deg: number; elev_m: number | null }
