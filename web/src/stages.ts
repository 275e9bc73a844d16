// SPDX-License-Identifier: GPL-3.0-or-later
// The stages of the job with their headline numbers: answered, being computed, gone stale, refused, or not begun.
import type { Stage, State } from "./lane";
import { asked, workOf, type Live } from "./live";
import { plannedMast } from "./mastask";
import { show, whole } from "./numbers";
import { poorest, sun } from "./place";
import type { Known } from "./state";
import { say, sayMany } from "./words";

const state = (answer: { asked: string } | undefined, question: string): State => (!answer ? "open" : answer.asked === question ? "lit" : "stale");

function of(k: Known, name: Live, refused: boolean): State {
  const work = workOf(name);
  if (work?.busy) return "busy";
  if (work?.refused && work.question === asked[name](k)) return "refused";
  const now = state(k[name], asked[name](k));
  return now === "lit" && refused ? "refused" : now;
}

function dark(k: Known): string {
  const plan = k.plan?.value;
  if (!plan?.lamps.length) return "";
  const worst = Math.max(...plan.lamps.map((l) => l.nights.dark_per_year.mean));
  return worst > 0 && worst < 1 ? say("under 1 dark night a year") : sayMany("{0} dark night a year", "{0} dark nights a year", Math.round(worst));
}

/** Groups made here, else those of a plan that names its cells. */
function packs(k: Known): { state: State; headline: string } {
  const named = Math.min(...(k.plan?.value.lamps ?? []).map((lamp) => lamp.pack?.weakest_ah ?? Infinity));
  if (k.match || !Number.isFinite(named)) return { state: of(k, "match", false), headline: k.match ? say("weakest {0} Ah", show(k.match.value.weakest_ah)) : "" };
  return { state: of(k, "plan", false), headline: say("weakest {0} Ah", show(named)) };
}

/** The plan's own, or what was typed instead. */
function mastStage(k: Known): { state: State; headline: string } {
  const own = plannedMast(k), answer = own ?? k.mast?.value, verdict = answer?.verdict;
  const state = own ? of(k, "plan", false) : of(k, "mast", verdict === "falls");
  return { state: verdict === "not_checked" && state === "lit" ? "open" : state, headline: verdict === "stands" || verdict === "engineer" ? say("base {0} m deep", show(own?.depth_m ?? answer?.base_depth_m, 3)) : "" };
}

export function stages(k: Known): Stage[] {
  const climate = k.climate?.value;
  const wiring = of(k, "wiring", k.wiring?.value.refused ?? false);
  const plan = of(k, "plan", (k.plan?.value.refused?.length ?? 0) > 0);
  return [
    { id: "place", name: say("Place"), state: of(k, "climate", false), headline: climate ? say("{0} kWh/m² a day", sun(climate.ghi_kwh_m2_day[poorest(climate)])) : "" },
    { id: "light", name: say("Light"), state: of(k, "light", false), headline: k.light ? `${show(k.light.value.average_lx, 2)} lx` : "" },
    { id: "power", name: say("Power"), state: plan, headline: dark(k) },
    { id: "cells", name: say("Cells"), state: k.crate ? "lit" : "open", headline: k.crate ? say("{0} of {1} tested", whole(k.crate.value.tested), whole(k.crate.value.all)) : "" },
    { id: "pack", name: say("Pack"), ...packs(k) },
    { id: "wiring", name: say("Wiring"), state: wiring, headline: k.wiring && wiring !== "refused" ? say("readings known") : "" },
    { id: "mast", name: say("Mast"), ...mastStage(k) },
    { id: "sheets", name: say("Sheets"), state: !k.sheets ? "open" : plan === "lit" ? (k.sheets.asked === k.plan?.value.job ? "lit" : "stale") : plan, headline: k.sheets ? sayMany("{0} page", "{0} pages", k.sheets.value.pages) : "" },
    { id: "figures", name: say("Figures"), state: "always", headline: say("each by itself") },
  ];
}
