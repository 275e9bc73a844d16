// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked about the mast: the brief and the planned lamp, with what was typed instead. The core makes the mast of it
// (POST /mast/document), which the form shows and the check is asked with.
import type { Brief, Lamp, MastDocument, PlannedMast } from "./shapes";
import type { Known } from "./state";

/** Typed instead of the plan's; null: cleared. kind: of which lamps. */
export interface MastAsk {
  kind?: string | undefined; material?: string | undefined; height?: number | undefined; diameter?: number | undefined; wall?: number | undefined; wind?: number | null | undefined;
  is?: string | undefined; terrain?: string | undefined; soil?: string | undefined; collar?: number | null | undefined; panel?: number | undefined; people?: boolean | undefined;
}
export interface MastSize {
  material: string; height: number; diameter: number; wall: number; wind: number | undefined; is: string; terrain: string; soil: string; base: string; collar: number | undefined; panel: number; tilt: number; people: boolean;
}
/** own: the mast with nothing typed; document: the one that is judged. */
export interface MadeMast { own: MastDocument; document: MastDocument }

const short = (value: number): number => Number(value.toFixed(4));

/** The lamps whose mast is looked at: one of each kind that the plan gave a mast. */
export const mastLamps = (k: Known): Lamp[] => (k.plan?.value.lamps ?? []).filter((lamp, i, all) => lamp.mast?.pole !== undefined && all.findIndex((other) => other.kind === lamp.kind) === i);
const lampOf = (k: Known): Lamp | undefined => mastLamps(k).find((lamp) => lamp.kind === k.mastTyped.kind) ?? mastLamps(k)[0];
/** The mast of the plan, whatever was typed. */
export const mastOfPlan = (k: Known): PlannedMast | undefined => lampOf(k)?.mast;

/** The question for the mast; where there is no brief the masts of the lane stand in sand. */
export function mastQuestion(k: Known, t: MastAsk): object {
  const lamp = lampOf(k), { pole, material, diameter_mm, wall_mm, height_m } = lamp?.mast ?? {}, ofLane = k.plan?.value.lane?.kind === lamp?.kind; /* the search for the lane chose its height */
  return {
    brief: k.brief ?? undefined,
    lamp: lamp && { panel_w: lamp.size.panel_w, pack_wh: lamp.size.pack_wh, tilt_deg: lamp.tilt_deg, height_m: ofLane ? height_m : undefined, pole, material, diameter_mm, wall_mm },
    instead: {
      speed_m_s: t.wind ?? undefined, no_wind: t.wind === null || undefined, speed_is: t.is, terrain: t.terrain, height_m: t.height ?? (k.brief ? undefined : k.lane.height_m),
      soil: (t.soil === "other" ? undefined : t.soil) ?? (k.brief ? undefined : "sand"), collar_m: t.collar ?? undefined, no_collar: t.collar === null || undefined,
      material: t.material, diameter_mm: t.diameter, wall_mm: t.wall, panel_m2: t.panel, people_below: t.people,
    },
  };
}

/** As the form shows it: what was typed, else what the brief and the plan say. */
function sizeOf({ own, document }: MadeMast, t: MastAsk): MastSize {
  const { pipe, panel, base } = own, wind = own.wind, collar = document.base.collar_m;
  return {
    material: t.material ?? pipe.material, height: t.height ?? pipe.height_m, diameter: t.diameter ?? pipe.diameter_mm, wall: t.wall ?? pipe.wall_mm,
    wind: t.wind === null ? undefined : t.wind ?? wind?.speed_m_s, is: t.is ?? wind?.speed_is ?? "mean_10min", terrain: t.terrain ?? wind?.terrain ?? "II", soil: t.soil ?? base.soil,
    base: t.collar ? "collar" : base.kind, collar: t.collar === null ? undefined : t.collar ?? (collar && short(collar)), panel: t.panel ?? short(panel.area_m2), tilt: panel.tilt_deg,
    people: t.people ?? own.place.people_below ?? false,
  };
}
export function mastOf(k: Known): MastSize | undefined {
  const made = k.mastMade;
  return made && sizeOf(untouched(k) ? { ...made, document: made.own } : made, k.mastTyped);
}

/** Nothing typed, or the very values that were there. */
function untouched(k: Known): boolean {
  const { kind: _kind, ...t } = k.mastTyped, made = k.mastMade, own = made && sizeOf({ ...made, document: made.own }, {});
  return (Object.keys(t) as (keyof typeof t)[]).every((key) => t[key] === undefined || (own !== undefined && (t[key] ?? undefined) === own[key]));
}
/** The plan's answer about its own mast, while nothing else is typed. */
export const plannedMast = (k: Known): PlannedMast | undefined => (untouched(k) ? mastOfPlan(k) : undefined);

/* What a brief says of the ground that it knows, and of a plate: with another ground or base it may not say it. */
const groundKeys = ["soil_pa_per_m", "bearing_pa", "on_rock"], plateKeys = ["bearing_pa", "on_rock", "block_m", "block_height_m", "bolt_mm", "bolt_spacing_m", "grade"];

/** What was typed goes into the brief: wind, height, ground and people; the pole comes from its shelf. */
export function windInto(brief: Brief, typed: MastAsk, m: MastSize): Brief {
  const { gust_m_s: _gust, wind: old, ...place } = brief.place, { source, ...site } = old ?? {}, mast = brief.build?.mast ?? {};
  const blown = [typed.wind, typed.is, typed.terrain].some((v) => v !== undefined), dug = typed.collar !== undefined;
  if (!blown && !dug && [typed.height, typed.soil, typed.people].every((v) => v === undefined)) return brief;
  const wind = m.wind === undefined ? {} : { wind: { ...site, ...(source !== undefined && old?.speed_m_s === m.wind && old.speed_is === m.is ? { source } : {}), speed_m_s: m.wind, speed_is: m.is, terrain: m.terrain } };
  const base = !dug ? {} : m.collar === undefined ? { base: "buried" } : { collar_m: m.collar }, told = { ...base, height_m: typed.height, soil: typed.soil, people_below: typed.people };
  const gone = [...(dug ? ["base", "collar_m", ...plateKeys] : []), ...(typed.soil === undefined || typed.soil === mast.soil ? [] : groundKeys)];
  return {
    ...brief, place: blown ? { ...place, ...wind } : brief.place,
    build: { ...brief.build, mast: Object.fromEntries([...Object.entries(mast).filter(([key]) => !gone.includes(key)), ...Object.entries(told).filter(([, value]) => value !== undefined)]) },
  };
}
