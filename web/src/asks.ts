// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked of each stage, as documents of the JSON interface; what is left open there comes from the plan.
import { evenly, fieldOf, holds, outlineOf, towards, type Bent } from "./field";
import { typed } from "./numbers";
import type { Lamp, Layout, Mast, Part, Plan } from "./shapes";
import type { Known } from "./state";
import { say } from "./words";

/** Where a mast stands; how it looks only where that does not follow from its side. */
export type Stand = [x_m: number, y_m: number, turn_deg?: number, tilt_deg?: number];
/** at: masts that stand otherwise than evenly; as many as masts, or none. tilt: how far the heads are lifted towards the lane.
 * left: share of the first light that counts. head: how it is spread, as in the head document; a flat board where nothing is told.
 * field: a bent lane or a polygon instead of a straight length. beside_m: so far outside the edge masts stand evenly. */
export interface LaneAsk {
  length_m: number; width_m: number; class: string; masts: number; height_m: number; side: string; lumens: number; tilt?: number | undefined; level?: number | undefined;
  at?: Stand[] | undefined; left?: number | undefined; head?: Record<string, unknown> | undefined; field?: Bent | undefined; beside_m?: number | undefined;
}
/** counted: the shelf's cells before those of a crate took their place. */
export interface PackAsk { series?: number | undefined; parallel?: number | undefined; packs?: number | undefined; counted?: Part[] | undefined }
export interface WiringAsk { series?: number | undefined; parallel?: number | undefined; voc?: number | undefined; isc?: number | undefined; fuse?: number | undefined }
export const firstLane: LaneAsk = { length_m: 60, width_m: 2.5, class: "P6", masts: 3, height_m: 4, side: "one", lumens: 800 };
export const firstPack: PackAsk = {};
export const firstWiring: WiringAsk = {};

export const TILT_DEG = 10, LEFT = 0.8, BESIDE_M = 0.3;

/** Towards the lane; heads over it look straight down. */
function looks(a: LaneAsk, x_m: number, y_m: number): [turn_deg: number, tilt_deg: number] {
  const over = a.field ? holds(outlineOf({ ...a, field: a.field }), x_m, y_m) : y_m > 0 && y_m < a.width_m;
  return [a.field ? towards({ ...a, field: a.field }, x_m, y_m) : y_m >= a.width_m ? -90 : 90, over ? 0 : a.tilt ?? TILT_DEG];
}

/** Spread evenly: the first and last half a spacing from the ends. */
function evenOn(a: LaneAsk): Stand[] {
  const beside = a.beside_m ?? BESIDE_M, spacing = a.length_m / a.masts;
  if (a.field) return evenly({ ...a, field: a.field }, a.masts, a.side, beside);
  return Array.from({ length: a.masts }, (_, i): Stand => [spacing * (i + 0.5), a.side === "middle" ? a.width_m / 2 : a.side === "staggered" && i % 2 === 1 ? a.width_m + beside : -beside]);
}

/** Masts where they were dragged to, or spread evenly. */
export function mastsOf(a: LaneAsk): Mast[] {
  return evenOn(a).map((even, i) => {
    const [x_m, y_m, turn, tilt] = a.at?.[i] ?? even, own = looks(a, x_m, y_m);
    return { x_m, y_m, height_m: a.height_m, turn_deg: turn ?? own[0], tilt_deg: tilt ?? own[1] };
  });
}

/* Of a brief's wish what the lane of the light stage tells otherwise, and the masts that the plan is to find. */
const toldHere = ["length_m", "width_m", "line", "polygon", "class", "average_lx", "minimum_lx", "uniformity", "face_lx", "masts", "mast_places"];
/** The wish that a plan finds masts and heads of this lane; what else the brief wishes of its lane stays. */
export const laneWish = (a: LaneAsk, old: Record<string, unknown>): Record<string, unknown> => ({ ...Object.fromEntries(Object.entries(old).filter(([key]) => !toldHere.includes(key))), ...fieldOf(a), class: a.class });

const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
const sameWay = (a: number, b: number): boolean => Math.cos(((a - b) * Math.PI) / 180) > 1 - 1e-12; /* -180 is 180 */
/** A line of the search or a plan's choice, as the masts and heads of the lane. Where it stands them evenly they follow the lane's length. */
export function takenInto(a: LaneAsk, option: Pick<Layout, "masts" | "height_m" | "side" | "tilt_deg" | "lumens_each" | "places">): LaneAsk {
  const even: LaneAsk = { ...a, masts: option.masts, height_m: option.height_m, side: option.side, tilt: option.tilt_deg, lumens: Math.ceil(option.lumens_each - 1e-9), level: 1, at: undefined };
  const stand = (m: Mast): Stand => {
    const [turn, tilt] = looks(even, m.x_m, m.y_m);
    return sameWay(turn, m.turn_deg) && near(tilt, m.tilt_deg) ? [m.x_m, m.y_m] : [m.x_m, m.y_m, m.turn_deg, m.tilt_deg];
  };
  const at = option.places.map(stand), spread = mastsOf(even);
  const alike = option.places.every((m, i) => { const e = spread[i]; return e !== undefined && sameWay(e.turn_deg, m.turn_deg) && (["x_m", "y_m", "tilt_deg"] as const).every((key) => near(e[key], m[key])); });
  return alike ? even : { ...even, at };
}

const lampOf = (k: Known): Lamp | undefined => k.plan?.value.lamps[0];
const onShelf = (plan: Plan | undefined, name: string | undefined): Part | undefined => plan?.brief.shelf.panels.find((p) => p.name === name);

export interface PackSize { series: number; parallel: number; packs: number }
export function packOf(k: Known): PackSize {
  const size = lampOf(k)?.size;
  return { series: k.pack.series ?? size?.series ?? 3, parallel: k.pack.parallel ?? size?.parallel ?? 4, packs: k.pack.packs ?? 1 };
}

export interface TestedCell { id: string; capacity_ah: number; voltage_class?: string; resistance_mohm?: number }
const columnNames: Record<string, keyof TestedCell> = { id: "id", cell: "id", code: "id", capacity_ah: "capacity_ah", ah: "capacity_ah", resistance_mohm: "resistance_mohm", mohm: "resistance_mohm", voltage_class: "voltage_class", class: "voltage_class" };

/** What parts the columns. Commas point, too: "A, 1,86" is parted by commas with a space, "A,1,86" may be read in two ways. */
function parting(lines: string[]): { mark: string | RegExp; shown: string } {
  const all = lines.join("\n");
  if (all.includes("\t")) return { mark: "\t", shown: say("a tab") };
  if (all.includes(";")) return { mark: ";", shown: "“;”" };
  if (/,\s/.test(all)) return { mark: /,\s+/, shown: "“, ”" };
  const unsure = lines.findIndex((line) => /,\d+,\d+(,|$)/.test(line) && !line.includes("."));
  if (unsure >= 0) throw new Error(say("Line {0}, “{1}”: a comma cannot part and point at once. Part the columns by a semicolon: A; 1,86; 80", unsure + 1, lines[unsure] ?? ""));
  return { mark: ",", shown: "“,”" };
}

/** Lines of "code, Ah" and perhaps more columns, with or without a first line of names. Throws a sentence. */
export function cellsOf(text: string, voltageClass: string): TestedCell[] {
  const lines = text.split(/\r?\n/).map((line) => line.trim()).filter(Boolean);
  const { mark, shown } = parting(lines), seen = new Map<string, number>();
  const parts = (line: string): string[] => line.split(mark).map((part) => part.trim());
  const head = parts(lines[0] ?? "").map((name) => columnNames[name.toLowerCase()]);
  const named = head.includes("capacity_ah");
  const columns: (keyof TestedCell | undefined)[] = named ? head : ["id", "capacity_ah", "resistance_mohm"];
  return lines.slice(named ? 1 : 0).map((line, i) => {
    const cell: TestedCell = { id: say("line {0}", i + 1), capacity_ah: NaN, voltage_class: voltageClass };
    parts(line).forEach((part, c) => {
      const key = columns[c];
      if (key === "id" || key === "voltage_class") { if (part) cell[key] = part; }
      else if (key && part) cell[key] = typed(part);
    });
    if (Number.isNaN(cell.capacity_ah)) throw new Error(say("Line {0}, “{1}”: its capacity is not a number. A line is a code, {2}, and the capacity in Ah.", i + (named ? 2 : 1), line, shown));
    const before = seen.get(cell.id);
    if (before !== undefined) throw new Error(say("Line {0}: the code {1} stands in line {2} already. Each cell has a code of its own.", i + (named ? 2 : 1), cell.id, before));
    seen.set(cell.id, i + (named ? 2 : 1));
    return cell;
  });
}

/** cells: in series in the panel; the form asks for its voltages alone. vmp, imp: undefined where the voltage or current is typed. */
export interface WiringSize { series: number; parallel: number; voc: number; isc: number; fuse: number; cells: number; vmp?: number | undefined; imp?: number | undefined }
const CELL_OPEN_V = 0.6; /* a silicon cell: 0.5 to 0.75 V */
const given = (value: unknown): number | undefined => (typeof value === "number" ? value : undefined);
export function wiringOf(k: Known): WiringSize {
  const lamp = lampOf(k), panel = onShelf(k.plan?.value, lamp?.size.panel), w = k.wiringAsk, panels = lamp?.size.panels ?? 1;
  const voc = w.voc ?? given(panel?.["voc_v"]) ?? 21.6, imp = given(panel?.["imp_a"]);
  return {
    series: w.series ?? lamp?.size.series ?? 3, parallel: w.parallel ?? lamp?.size.parallel ?? 4, voc,
    isc: w.isc ?? Number(((given(panel?.["isc_a"]) ?? 0.63) * panels).toFixed(3)), fuse: w.fuse ?? k.plan?.value.circuits?.[0]?.parts?.fuse_a ?? 3.15,
    cells: (w.voc === undefined ? given(panel?.["cells"]) : undefined) ?? Math.max(1, Math.round(voc / CELL_OPEN_V)),
    vmp: w.voc === undefined ? given(panel?.["vmp_v"]) : undefined, imp: w.isc === undefined && imp !== undefined ? Number((imp * panels).toFixed(3)) : undefined,
  };
}
export function circuitOf(w: WiringSize): object {
  return {
    format: "lanewick.circuit/1", pack: { series: w.series, parallel: w.parallel }, protection: { fuse_a: w.fuse },
    panel: { cells: w.cells, voc_v: w.voc, isc_a: w.isc, vmp_v: w.vmp ?? Number((w.voc * 0.813).toFixed(2)), imp_a: w.imp ?? Number((w.isc * 0.91).toFixed(3)) },
  };
}
