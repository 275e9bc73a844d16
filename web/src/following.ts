// SPDX-License-Identifier: GPL-3.0-or-later
// The lane as the Light stage shows it goes with the brief's lane, and with the masts and heads that a plan has found for it.
import { takenInto, type LaneAsk } from "./asks";
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

/** The masts that a plan has found, where they stand, with their heads and the light that is left when they are old. */
export function laneOfPlan(lane: LaneAsk, plan: Plan): LaneAsk {
  return plan.lane ? { ...takenInto(lane, { ...plan.lane.chosen, places: plan.lane.masts }), left: plan.lane.maintenance, head: headOf(plan) } : lane;
}

const foundIn = (plan: Plan | undefined): string => JSON.stringify(plan?.lane && [plan.lane.chosen, plan.lane.masts, plan.lane.maintenance, headOf(plan)]);
export function laneFollowing(old: Known, next: Known): LaneAsk {
  const wish = next.brief?.want["lane"] as { length_m?: unknown; width_m?: unknown; class?: unknown } | undefined, plan = next.plan?.value;
  let lane = next.lane;
  if (!wish || typeof wish.length_m !== "number" || typeof wish.width_m !== "number") return lane; /* only straight lanes are drawn */
  const anew = JSON.stringify(wish) !== JSON.stringify(old.brief?.want["lane"]), kind = /^P[1-6]$/.test(String(wish.class)) ? String(wish.class) : lane.class;
  if (anew && (lane.length_m !== wish.length_m || lane.width_m !== wish.width_m || lane.class !== kind))
    lane = { ...lane, length_m: wish.length_m, width_m: wish.width_m, class: kind, at: undefined };
  return plan?.lane && next.plan !== old.plan && foundIn(plan) !== foundIn(old.plan?.value) ? laneOfPlan(lane, plan) : lane;
}
