// SPDX-License-Identifier: GPL-3.0-or-later
// Another plan takes the place of the open one; what its stages show is not kept with it and is computed anew.
import { laneFollowing } from "./following";
import { asked, compute, type Live } from "./live";
import type { Plan } from "./shapes";
import { inputsOf, knownNow, open, type Answered, type Inputs } from "./state";

const shown: Live[] = ["climate", "light", "wiring", "mast"];

export function openPlan(inputs: Inputs, plan: Answered<Plan> | undefined): void {
  open(inputs, plan);
  const { brief, cells } = knownNow();
  shown.filter((name) => name !== "climate" || brief).forEach(compute);
  if (cells.trim()) compute("match");
}

/** A plan by itself: what was typed for other stages stays, the lane goes with it. */
export function openMade(plan: Plan): void {
  const known = knownNow(), inputs = { ...inputsOf(known), brief: plan.brief, seed: plan.seed }, made: Answered<Plan> = { asked: asked.plan({ ...known, ...inputs }), value: plan };
  openPlan({ ...inputs, lane: laneFollowing(known, { ...known, ...inputs, plan: made }) }, made);
}
