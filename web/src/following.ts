// SPDX-License-Identifier: GPL-3.0-or-later
// The lane as the Light stage shows it goes with the brief's lane, and with the masts and heads that a plan has found for it.
import { takenInto, type LaneAsk } from "./asks";
import { bentOf, lengthOf, sameField } from "./field";
import type { Plan } from "./shapes";
import type { Known } from "./state";

const SPREAD = ["cos_power", "round", "intensity_file", "readings", "street_plane_deg", "diffuser", "colour_k"];
/** How the chosen head of a plan spreads its light, in the keys of the lane document. */
function headOf(plan: Plan): LaneAsk["head"] {
  const heads = (plan.brief.shelf["heads"] ?? []) as Record<string, unknown>[], name = plan.lane?.chosen.head;
  const head = heads.find((one, i) => (one["name"] ?? `head ${i + 1}`) === name) ?? (plan.brief.want["lane"] as Record<string, unknown> | undefined)?.["head"] ?? {};
  const told = Object.entries(head).filter(([key]) => SPREAD.includes(key));
  return told.length ? Object.fromEntries(told) : undefined;
}

const number = (value: unknown): number | undefined => (typeof value === "number" && Number.isFinite(value) ? value : undefined);
/** The lane of a brief's wish and its class; undefined where it tells none that can be drawn. */
function groundOf(wish: Record<string, unknown>, lane: LaneAsk): Pick<LaneAsk, "length_m" | "width_m" | "field" | "beside_m" | "class"> | undefined {
  const field = bentOf(wish), length_m = number(wish["length_m"]), width_m = number(wish["width_m"]), kind = String(wish["class"]);
  const rest = { field, beside_m: number(wish["offset_m"]), class: /^(P[1-6]|C[0-5])$/.test(kind) ? kind : lane.class };
  if (field) return { ...rest, length_m: field.line ? Number(lengthOf(field).toFixed(2)) : lane.length_m, width_m: (field.line && width_m) ?? lane.width_m };
  return length_m === undefined || width_m === undefined ? undefined : { ...rest, length_m, width_m };
}

/** The brief's lane with the masts that a plan has found for it, where they stand, their heads and the light that is left when they are old. */
export function laneOfPlan(lane: LaneAsk, plan: Plan): LaneAsk {
  const ground = groundOf((plan.brief.want["lane"] ?? {}) as Record<string, unknown>, lane);
  return plan.lane && ground ? { ...takenInto({ ...lane, ...ground }, { ...plan.lane.chosen, places: plan.lane.masts }), left: plan.lane.maintenance, head: headOf(plan) } : lane;
}

const foundIn = (plan: Plan | undefined): string => JSON.stringify(plan?.lane && [plan.lane.chosen, plan.lane.masts, plan.lane.maintenance, headOf(plan)]);
export function laneFollowing(old: Known, next: Known): LaneAsk {
  const wish = next.brief?.want["lane"] as Record<string, unknown> | undefined, plan = next.plan?.value, ground = wish && groundOf(wish, next.lane);
  let lane = next.lane;
  if (!wish || !ground) return lane;
  const anew = JSON.stringify(wish) !== JSON.stringify(old.brief?.want["lane"]);
  if (anew && (!sameField(lane, { ...lane, ...ground }) || lane.class !== ground.class)) lane = { ...lane, ...ground, at: undefined };
  return plan?.lane && next.plan !== old.plan && foundIn(plan) !== foundIn(old.plan?.value) ? laneOfPlan(lane, plan) : lane;
}
