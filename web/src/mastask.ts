// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked about the mast: the plan's own (its pole, base, head, ground and people, as core/plan/plan_mast.c takes them from the
// brief) with what was typed instead. Nothing typed: the same document, so the same answer as the plan's.
import type { Brief, Lamp, PlannedMast } from "./shapes";
import type { Known } from "./state";

/** Typed instead of the plan's; null: cleared. kind: of which lamps. */
export interface MastAsk {
  kind?: string | undefined; material?: string | undefined; height?: number | undefined; diameter?: number | undefined; wall?: number | undefined; wind?: number | null | undefined;
  is?: string | undefined; terrain?: string | undefined; soil?: string | undefined; collar?: number | null | undefined; panel?: number | undefined;
}
export interface MastSize {
  material: string; height: number; diameter: number; wall: number; wind: number | undefined; is: string; terrain: string; soil: string; base: string; collar: number | undefined; panel: number; tilt: number;
}
interface Pole { name?: string; material: string; diameter_mm: number; wall_mm: number; length_m?: number; age_years?: number; wall_measured?: boolean; reused?: boolean; upper?: Record<string, unknown> }
type Fields = Record<string, unknown>;

/* Common panels give some 170 W a square metre with their frames; the light hangs so far below the top. */
const PANEL_W_M2 = 170, LIGHT_BELOW_M = 0.35, HEIGHT_M = 4, POLE: Pole = { material: "steel", diameter_mm: 76.1, wall_mm: 3.2, length_m: 6 };
const metals = ["steel", "steel_unmarked", "aluminium"];
const pick = (from: Fields | undefined, keys: string[]): Fields => Object.fromEntries(keys.filter((key) => from?.[key] !== undefined).map((key) => [key, from?.[key]]));
const number = (value: unknown, fallback: number): number => (typeof value === "number" ? value : fallback);
const short = (value: number): number => Number(value.toFixed(4));

/** The lamps whose mast is looked at: one of each kind that the plan gave a mast. */
export const mastLamps = (k: Known): Lamp[] => (k.plan?.value.lamps ?? []).filter((lamp, i, all) => lamp.mast?.pole !== undefined && all.findIndex((other) => other.kind === lamp.kind) === i);
const lampOf = (k: Known): Lamp | undefined => mastLamps(k).find((lamp) => lamp.kind === k.mastTyped.kind) ?? mastLamps(k)[0];

/** The plan's answer about its own mast, while nothing else is typed. */
export function plannedMast(k: Known): PlannedMast | undefined {
  const asPlanned = { ...k, mastTyped: { kind: k.mastTyped.kind } };
  return JSON.stringify(mastDocument(k)) === JSON.stringify(mastDocument(asPlanned)) ? lampOf(k)?.mast : undefined;
}
/** The mast of the plan, whatever was typed. */
export const mastOfPlan = (k: Known): PlannedMast | undefined => lampOf(k)?.mast;

/** The pole that the plan took; without one the thickest of the shelf, or a common tube. */
function poleOf(k: Known, planned: PlannedMast | undefined): Pole {
  const shelf = ((k.plan?.value.brief ?? k.brief)?.shelf["masts"] ?? []) as Pole[];
  if (planned) {
    const its = { material: planned.material ?? "steel", diameter_mm: planned.diameter_mm ?? 0, wall_mm: planned.wall_mm ?? 0 };
    return shelf.find((p) => p.name === planned.pole) ?? shelf.find((p) => p.material === its.material && p.diameter_mm === its.diameter_mm && p.wall_mm === its.wall_mm) ?? its;
  }
  return [...shelf].sort((a, b) => b.diameter_mm - a.diameter_mm || b.wall_mm - a.wall_mm)[0] ?? POLE;
}

function windOf(brief: Brief | null): Fields {
  const { wind, gust_m_s } = brief?.place ?? {};
  if (wind) return { ...wind, terrain: wind.terrain ?? "II" };
  return gust_m_s === undefined ? {} : { speed_m_s: gust_m_s, speed_is: "gust_design", terrain: "D" };
}
/* What the plan looks for on the shelf is not known before: its strongest panel. */
const mostWatts = (brief: Brief | null): number => Math.max(0, ...(brief?.shelf.panels ?? []).map((p) => number(p.watts, 0)));

function collarOf(k: Known, base: string, diameter_mm: number): number | undefined {
  const typed = k.mastTyped.collar, pipe = diameter_mm / 1000;
  if (typed === null || base !== "collar") return undefined;
  return typed ?? short(Math.max(pipe, number(k.brief?.build?.mast?.collar_m, Math.max(0.3, 0.2 + pipe))));
}

export function mastOf(k: Known): MastSize {
  const t = k.mastTyped, lamp = lampOf(k), planned = lamp?.mast, build = k.brief?.build?.mast, wind = windOf(k.brief), pole = poleOf(k, planned);
  const diameter = t.diameter ?? pole.diameter_mm, base = t.collar ? "collar" : String(build?.["base"] ?? "collar");
  const ofLane = lamp && k.plan?.value.lane?.kind === lamp.kind ? planned?.height_m : undefined; /* the search for the lane chose it */
  return {
    material: t.material ?? pole.material, height: t.height ?? ofLane ?? build?.height_m ?? (k.brief ? HEIGHT_M : k.lane.height_m), diameter, wall: t.wall ?? pole.wall_mm,
    wind: t.wind === null ? undefined : t.wind ?? (wind["speed_m_s"] as number | undefined), is: t.is ?? String(wind["speed_is"] ?? "mean_10min"), terrain: t.terrain ?? String(wind["terrain"] ?? "II"),
    soil: t.soil ?? build?.soil ?? (k.brief ? "clay" : "sand"), base, collar: collarOf(k, base, diameter),
    panel: t.panel ?? short((lamp?.size.panel_w ?? (mostWatts(k.brief) || 34)) / PANEL_W_M2), tilt: lamp?.tilt_deg ?? 15,
  };
}

/** What was typed goes into the brief: wind, height and ground; the pole comes from its shelf. */
export function windInto(brief: Brief, typed: MastAsk, m: MastSize): Brief {
  const { gust_m_s: _gust, wind: old, ...place } = brief.place, { base: _base, collar_m: _collar, ...mast } = brief.build?.mast ?? {};
  const blown = [typed.wind, typed.is, typed.terrain].some((v) => v !== undefined), dug = typed.collar !== undefined;
  if (!blown && !dug && typed.height === undefined && typed.soil === undefined) return brief;
  const wind = m.wind === undefined ? {} : { wind: { ...(old?.speed_m_s === m.wind && old.speed_is === m.is ? old : {}), speed_m_s: m.wind, speed_is: m.is, terrain: m.terrain } };
  const base = m.collar === undefined ? { base: "buried" } : { collar_m: m.collar };
  return {
    ...brief, place: blown ? { ...place, ...wind } : brief.place,
    build: { ...brief.build, mast: { ...(dug ? { ...mast, ...base } : brief.build?.mast), ...(typed.height === undefined ? {} : { height_m: m.height }), ...(typed.soil === undefined ? {} : { soil: m.soil }) } },
  };
}

function pipeOf(k: Known, m: MastSize, build: Fields): Fields {
  const t = k.mastTyped, pole = poleOf(k, lampOf(k)?.mast), its = t.material === undefined && t.diameter === undefined && t.wall === undefined;
  const years = number(k.plan?.value.wish?.planned_years ?? k.brief?.want.planned_years, 3), measured = its && pole.wall_measured === true;
  const { length_m: _length, ...upper } = pole.upper ?? {};
  return {
    material: m.material, height_m: m.height, diameter_mm: m.diameter, wall_mm: m.wall, hole_mm: Math.min(number(build["hole_mm"], 10), 0.25 * m.diameter), ...pick(build, ["wall_temp_c"]),
    age_years: Math.min(50, years + (!its || (measured && metals.includes(m.material)) ? 0 : number(pole.age_years, 0))),
    ...(measured ? { wall_measured: true } : {}), ...(its && pole.reused ? { welded: true } : {}), ...(its && pole.upper ? { upper: { ...upper, lower_length_m: number(pole.length_m, 6) } } : {}),
  };
}

export function mastDocument(k: Known): object {
  const m = mastOf(k), lamp = lampOf(k), build: Fields = k.brief?.build?.mast ?? {}, panel = k.mastTyped.panel ?? (lamp ? lamp.size.panel_w / PANEL_W_M2 : m.panel);
  const kind = m.base === "collar" && m.collar === undefined ? "buried" : m.base;
  return {
    format: "lanewick.mast/1",
    ...(m.wind === undefined ? {} : { wind: { ...pick(windOf(k.brief), ["air_kg_m3", "topography", "return_years"]), speed_m_s: m.wind, speed_is: m.is, terrain: m.terrain } }),
    panel: { area_m2: panel, height_m: m.height + number(build["panel_above_m"], 0.2), tilt_deg: m.tilt, width_m: Math.sqrt(panel), kg: 12 * panel },
    box: { area_m2: 0.105, height_m: 0.65 * m.height, kg: 2 + (lamp?.size.pack_wh ?? 80) / 150 },
    head: { area_m2: 0.04, height_m: Math.max(0.5, m.height - LIGHT_BELOW_M), kg: 0.8, arm_m: number(build["head_arm_m"], 0.5) },
    pipe: pipeOf(k, m, build),
    base: {
      ...pick(build, [...(m.soil === "other" ? ["soil_pa_per_m"] : []), "doubled", "paved", "flooded", "loose_m", "depth_m"]), soil: m.soil, kind, ...(kind === "collar" ? { collar_m: m.collar } : {}),
      ...(kind === "plate" ? pick(build, ["on_rock", "block_m", "block_height_m", "bolt_mm", "bolt_spacing_m", "grade", "bearing_pa"]) : {}),
    },
    place: pick(build, ["hill", "on_building", "people_below", "power_line_near", "guyed"]),
  };
}
