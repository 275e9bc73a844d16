// SPDX-License-Identifier: GPL-3.0-or-later
// What another panel or another number of cells would do: sliders over the shelf, the nights of that lamp simulated at once with the
// same weather as the plan's.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Headline, Say, Slider } from "./form";
import { band, money, whole, type Band } from "./numbers";
import { RibbonPicture, type Ribbon } from "./ribbon";
import { panelsOf, type Panels } from "./shelf";
import type { Brief, Lamp, Option, Plan, Size } from "./shapes";
import { change } from "./state";
import { say } from "./words";

/** Whatever else a size says (charger, driver, series) goes along. */
export type Trial = Size;
const MOST_PARALLEL = 8; /* what a brief assumes that does not say it */
const called = (p: Panels): string => (p.count > 1 ? `${p.count} × ${p.name}` : p.name);
const same = (p: Panels, t: Trial): boolean => p.name === t.panel && p.count === t.panels;

const alike = (a: Size, b: Size): boolean => a.panel === b.panel && a.panels === b.panels && a.parallel === b.parallel;
/** One that the plan looked at itself, charger and driver with it; else the planned lamp with other parts. */
function sizeOf(plan: Plan, lamp: Lamp, part: { panel: string; panels: number; parallel: number }): Trial {
  const wanted: Size = { ...lamp.size, ...part };
  return alike(wanted, lamp.size) ? lamp.size : optionOf(plan, lamp, wanted)?.size ?? wanted;
}
const optionOf = (plan: Plan, lamp: Lamp, trial: Trial): Option | undefined => optionsOf(plan, lamp).find((o) => alike(o.size, trial));

/** What stands beside the sizes and is the same for all of them: the planned mast with its fixings. Options are priced without it. */
function besides(plan: Plan, lamp: Lamp): number {
  const of = plan.options.filter((o) => o.kind === lamp.kind), sizes = JSON.stringify(lamp.size);
  const own = of.find((o) => JSON.stringify(o.size) === sizes) ?? of.find((o) => alike(o.size, lamp.size) && o.chosen) ?? of.find((o) => alike(o.size, lamp.size));
  return own ? lamp.cost - own.cost_per_lamp : 0;
}
/** The other ways to build a lamp, each priced as the lamp itself is. */
export function optionsOf(plan: Plan, lamp: Lamp): Option[] {
  const more = besides(plan, lamp);
  return plan.options.filter((o) => o.kind === lamp.kind).map((o) => ({ ...o, cost_per_lamp: o.cost_per_lamp + more }));
}

/** The cost of the planned lamp with the parts changed. */
function costOf(lamp: Lamp, brief: Brief, panels: Panels, trial: Trial): number {
  const priced = (size: Size): number => (brief.shelf.panels.find((p) => p.name === size.panel)?.price ?? 0) * size.panels;
  const cell = brief.shelf.cells.find((c) => (c.name ?? "") === lamp.size.cell)?.price ?? 0;
  return lamp.cost - priced(lamp.size) + panels.price + (trial.parallel - lamp.size.parallel) * lamp.size.series * cell;
}

interface Asked { ribbon: Ribbon | null; word: string; busy: boolean }
/** The nights of one lamp; what is asked replaces what is under way. */
export function useRibbon(plan: Plan, lamp: Lamp, trial: Trial): Asked {
  const [state, setState] = useState<Asked>({ ribbon: null, word: "", busy: true });
  useEffect(() => {
    const stop = new AbortController();
    const { panel, panels, parallel, series, cell, charger, driver, board, trimmed } = trial;
    setState((s) => ({ ...s, busy: true, word: "" }));
    const later = setTimeout(() => {
      /* The brief leaves the light of a lane's lamp open; the plan found it. */
      const found = plan.lane?.kind === lamp.kind ? { head_w: plan.lane.chosen.watts_each, late_level: plan.lane.chosen.late_level } : {};
      ask<Ribbon>("POST", "/ribbon", { brief: plan.brief, kind: lamp.kind, seed: plan.seed, panel, panels, parallel, cell, series, charger, driver, ...(typeof board === "string" ? { board } : {}), trimmed, ...found }, stop.signal)
        .then((ribbon) => setState({ ribbon, word: "", busy: false }), (error: unknown) => { if (!stop.signal.aborted) setState((s) => ({ ...s, word: sentence(error), busy: false })); });
    }, 80);
    return () => { clearTimeout(later); stop.abort(); };
  }, [plan, lamp, trial]);
  return state;
}

function keepSizes(brief: Brief, trial: Trial): void {
  const panels = brief.shelf.panels.map((p) => (p.name === trial.panel ? p : { ...p, count: 0 }));
  change({ brief: { ...brief, shelf: { ...brief.shelf, panels, most_panels_per_lamp: trial.panels, most_parallel: trial.parallel } } });
}

export function Sizes({ plan, lamp, trial, set }: { plan: Plan; lamp: Lamp; trial: Trial; set: (trial: Trial) => void }) {
  const all = panelsOf(plan.brief), at = Math.max(0, all.findIndex((p) => same(p, trial))), panels = all[at];
  const { ribbon, word, busy } = useRibbon(plan, lamp, trial);
  const planned = alike(trial, lamp.size), option = optionOf(plan, lamp, trial);
  const dark: Band | undefined = planned ? lamp.nights.dark_per_year : option?.dark_per_year ?? ribbon?.dark_per_year;
  const put = (part: { panel: string; panels: number } | { parallel: number }): void => set(sizeOf(plan, lamp, { panel: trial.panel, panels: trial.panels, parallel: trial.parallel, ...part }));
  const most = Math.max(Number(plan.brief.shelf["most_parallel"] ?? MOST_PARALLEL), lamp.size.parallel);
  return (
    <section aria-label={say("Sizes")}>
      <h3>{say("Try other sizes")}</h3>
      {all.length > 1 ? <Slider label={say("Panel")} value={at} low={0} high={all.length - 1} told={panels ? `${called(panels)}, ${whole(panels.watts)} W` : ""} set={(i) => { const p = all[i]; if (p) put({ panel: p.name, panels: p.count }); }} /> : null}
      <Slider label={say("Cells side by side")} value={trial.parallel} low={1} high={most} told={say("{0} × {1} cells, {2} Wh", lamp.size.series, trial.parallel, whole((lamp.size.pack_wh / lamp.size.parallel) * trial.parallel))} set={(parallel) => put({ parallel })} />
      <div class={busy && !planned && !option ? "row stale" : "row"}>
        {dark ? <Headline value={band(dark)} of={planned ? say("dark nights a year, as planned") : say("dark nights a year with these sizes")} bad={dark.mean > plan.wish.dark_nights_per_year} /> : null}
        {panels ? <Headline value={money(planned ? lamp.cost : option?.cost_per_lamp ?? costOf(lamp, plan.brief, panels, trial), plan.cost.decimals, plan.cost.currency)} of={say("this lamp")} /> : null}
      </div>
      {planned ? null : <div class="buttons">
        <button type="button" onClick={() => keepSizes(plan.brief, trial)}>{say("Plan with at most these sizes")}</button>
        <button type="button" onClick={() => set(lamp.size)}>{say("Back to the planned sizes")}</button>
      </div>}
      <Say what={word} />
      <section aria-label={say("Night ribbon")} class={busy && ribbon ? "stale" : ""}>
        <h3>{say("The nights of a year")}</h3>
        {ribbon ? <RibbonPicture ribbon={ribbon} /> : word ? null : <p class="quiet ribbon-wait">{say("Drawing the nights…")}</p>}
      </section>
    </section>
  );
}
