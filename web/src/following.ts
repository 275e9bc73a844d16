// SPDX-License-Identifier: GPL-3.0-or-later
// The lane as the Light stage shows it goes with the brief's lane, and with the masts that a plan has found for it.
import type { LaneAsk } from "./asks";
import type { Known } from "./state";

export function laneFollowing(old: Known, next: Known): LaneAsk {
  const wish = next.brief?.want["lane"] as { length_m?: unknown; width_m?: unknown; class?: unknown } | undefined, found = next.plan?.value.lane?.chosen;
  let lane = next.lane;
  if (!wish || typeof wish.length_m !== "number" || typeof wish.width_m !== "number") return lane; /* only straight lanes are drawn */
  const anew = JSON.stringify(wish) !== JSON.stringify(old.brief?.want["lane"]), kind = /^P[1-6]$/.test(String(wish.class)) ? String(wish.class) : lane.class;
  if (anew && (lane.length_m !== wish.length_m || lane.width_m !== wish.width_m || lane.class !== kind))
    lane = { ...lane, length_m: wish.length_m, width_m: wish.width_m, class: kind, at: undefined };
  if (found && next.plan !== old.plan && JSON.stringify(found) !== JSON.stringify(old.plan?.value.lane?.chosen))
    lane = { ...lane, masts: found.masts, height_m: found.height_m, side: found.side, lumens: Math.ceil(found.lumens_each), tilt: found.tilt_deg, level: undefined, at: undefined };
  return lane;
}
