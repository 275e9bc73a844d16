// SPDX-License-Identifier: GPL-3.0-or-later
// A brief to begin with: one lamp and a small shelf. Prices and counts are there to be changed.
import type { Brief, LampKind } from "./shapes";
import { say } from "./words";

export function firstBrief(lat: number, lon: number, name: string): Brief {
  return {
    format: "lanewick.brief/1",
    name: name || say("My lane"),
    place: { ...(name ? { name } : {}), lat_deg: lat, lon_deg: lon },
    want: {
      dark_nights_per_year: 4, planned_years: 3,
      schedule: [{ from: "dusk", to: "22:30", level: 1 }, { from: "22:30", to: "dawn-1h", level: 0.35 }, { from: "dawn-1h", to: "dawn", level: 1 }],
      lamps: [{ name: say("lane"), count: 1, lumens: 400 }],
    },
    shelf: {
      most_panels_per_lamp: 2, most_parallel: 8,
      panels: [
        { name: "10 W panel", watts: 10, voc_v: 21.5, isc_a: 0.63, vmp_v: 17.5, imp_a: 0.57, cells: 36, count: 4, price: 14 },
        { name: "20 W panel", watts: 20, voc_v: 21.6, isc_a: 1.24, vmp_v: 17.6, imp_a: 1.14, cells: 36, count: 4, price: 24 },
      ],
      cells: [{ name: "reclaimed 18650, tested", class: "4v2", verdict: "sound", capacity_ah: 1.9, capacity_sd_pct: 5, resistance_ohm: 0.09, lowest_found_v: 2.9, count: 48, price: 0.4 }],
      chargers: [{ name: "tracking charger", kind: "tracking", series: [2, 4], end_v_per_cell: 4.1, most_a: 3, most_input_v: 28, efficiency: 0.92, standby_a: 0.008, cold_stop_c: 0, hot_stop_c: 45, price: 15 }],
      boards: [{ name: "3-group balancing board", series: 3, every_group: true, balances: true, high_v: 4.25, low_v: 2.8, price: 3 }],
      drivers: [{ name: "buck driver with dusk switch", kind: "buck", series: [2, 4], efficiency: 0.89, standby_a: 0.002, low_stop_v_per_cell: 2.9, price: 4 }],
      parts: [{ name: "box, fuse, head, mast, wire", price: 27 }],
    },
    build: { pack_in: "box", vent: true, fuse: true, protection: true },
  };
}

/** Lamps as a list, whatever way the brief tells them. Those of a lane have no number where the plan is to find it. */
export function kinds(brief: Brief): LampKind[] {
  const { lamps, lumens, lane } = brief.want;
  const shared = lumens === undefined ? {} : { lumens };
  if (Array.isArray(lamps)) return lamps.map((kind) => (kind.lumens === undefined && kind["head_w"] === undefined ? { ...kind, ...shared } : kind));
  return [{ name: say("lamp"), ...(lamps === undefined && lane !== undefined ? {} : { count: lamps ?? 1 }), ...shared }];
}

/** The kind whose light, and number where it is left out, the plan finds for the lane (docs/brief.md, want.lane). */
export const soughtIn = (brief: Brief, kind: LampKind): boolean =>
  brief.want["lane"] !== undefined && kind.lumens === undefined && kind["head_w"] === undefined && brief.want["head_w"] === undefined;
