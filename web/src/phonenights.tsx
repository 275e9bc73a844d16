// SPDX-License-Identifier: GPL-3.0-or-later
// Dark nights computed on this device, where the laptop does not answer or where there is none: the same simulation as the plan's,
// by the core in the page.
import { useEffect, useState } from "preact/hooks";
import { core, coreMissing, type Value } from "./core";
import { Caution, Headline, Say, Slider } from "./form";
import { band, month, show, whole, type Band } from "./numbers";
import { firstSize, lampInputs, leavesOut, type Found } from "./onelamp";
import { Problem, sentence } from "./problem";
import { panelsOf } from "./shelf";
import type { Brief, LampKind } from "./shapes";
import { kinds } from "./start";
import { say } from "./words";

export interface Nights { dark: Band; month: number; morePanel: number; moreCells: number; byMonth: number[]; panelWh: number[]; loadWh: number[]; spilledWh: number[]; years: number }
interface State { nights: Nights | null; word: string; busy: boolean }
type Sized = Parameters<typeof lampInputs>[2];
/** Nights to a tenth: of 160 years no more is known. */
const tenth = (nights: number): string => show(Math.round(nights * 10) / 10);
const YEARS = 160; /* as many as a plan draws */

function told(answer: Record<string, Value>): Nights {
  const number = (key: string): number => answer[key] as number, list = (key: string): number[] => answer[key] as number[];
  return {
    dark: { mean: number("dark_nights"), low: number("dark_low"), high: number("dark_high") }, month: number("limit_month") - 1, morePanel: number("dark_more_panel"), moreCells: number("dark_more_pack"),
    byMonth: list("dark_by_month"), panelWh: list("panel_wh_day"), loadWh: list("load_wh_day"), spilledWh: list("spilled_wh_day"), years: YEARS,
  };
}

/** The nights of a lamp, computed here a moment after the last change; none while `wanted` is false. */
export function usePhoneNights(wanted: boolean, brief: Brief, kind: string, size: Sized, found: Found): State {
  const [state, setState] = useState<State>({ nights: null, word: "", busy: false });
  const question = wanted ? JSON.stringify([brief, kind, size, found]) : "";
  useEffect(() => {
    if (!question) { setState({ nights: null, word: "", busy: false }); return; }
    let stopped = false;
    const put = (next: Partial<State>): void => { if (!stopped) setState((s) => ({ ...s, ...next })); };
    const run = async (): Promise<void> => {
      const here = await core();
      if (stopped) return;
      if (!here) throw new Problem("away", coreMissing());
      put({ nights: told(here.run("lamp_nights", { ...lampInputs(brief, kind, size, found), years: YEARS })), word: "", busy: false });
    };
    const go = (): void => void run().catch((error: unknown) => put({ nights: null, word: sentence(error), busy: false }));
    put({ busy: true });
    const later = setTimeout(go, 120);
    addEventListener("online", go); /* the core may come now */
    return () => { stopped = true; clearTimeout(later); removeEventListener("online", go); };
  }, [question]);
  return state;
}

export function PhoneNights({ state, brief, kind, size }: { state: State; brief: Brief; kind: string; size: Sized }) {
  const { nights, word, busy } = state;
  return (
    <section aria-label={say("Computed on this device")} class={busy ? "stale" : ""}>
      <Say what={word} />
      {nights ? <>
        <p class="note">{say("Computed on this device, without the laptop: {0} years of weather, the pack aged as planned.", nights.years)}</p>
        <p>{say("It is hardest in {0}. With a quarter more panel {1} nights a year are dark, with a quarter more cells {2}.", month(nights.month), tenth(nights.morePanel), tenth(nights.moreCells))}</p>
        {leavesOut(brief, kind, size) ? <p>{say("Not counted here: other loads on the pack, switches made by hand, light turned down, weather of your own. The laptop counts them.")}</p> : null}
        <details><summary>{say("Month by month")}</summary>
          <table><thead><tr><th>{say("Month")}</th><th>{say("Dark nights")}</th><th>{say("Panel, Wh a day")}</th><th>{say("Lamp, Wh a day")}</th></tr></thead>
            <tbody>{nights.byMonth.map((dark, m) => <tr key={m}><th scope="row">{month(m)}</th><td>{tenth(dark)}</td><td>{show(nights.panelWh[m])}</td><td>{show(nights.loadWh[m])}</td></tr>)}</tbody></table>
        </details>
      </> : null}
    </section>
  );
}

/** Where no plan can be made: one lamp of the shelf, by sliders. */
export function OneLamp({ brief }: { brief: Brief }) {
  const [size, setSize] = useState<Sized>(() => firstSize(brief));
  const lamp: LampKind = kinds(brief)[0] ?? {}, panels = panelsOf(brief);
  const at = Math.max(0, panels.findIndex((p) => p.name === size.panel && p.count === size.panels)), panel = panels[at];
  const state = usePhoneNights(true, brief, lamp.name ?? "", size, {});
  const wish = brief.want.dark_nights_per_year ?? 5;
  return (
    <section aria-label={say("One lamp by itself")}>
      <h2>{say("One lamp by itself")}</h2>
      <p>{say("A whole plan, which searches sizes and cost, needs the laptop. What one lamp from your shelf does is computed here.")}</p>
      {panels.length > 1 ? <Slider label={say("Panel")} value={at} low={0} high={panels.length - 1} told={panel ? `${panel.name}, ${whole(panel.watts)} W` : ""} set={(i) => { const p = panels[i]; if (p) setSize({ ...size, panel: p.name, panels: p.count }); }} /> : null}
      <Slider label={say("Cells side by side")} value={size.parallel} low={1} high={Number(brief.shelf["most_parallel"] ?? 12)} told={`${size.series} × ${size.parallel}`} set={(parallel) => setSize({ ...size, parallel })} />
      {state.nights ? <div class={state.busy ? "row stale" : "row"}><Headline value={band(state.nights.dark)} of={say("dark nights a year, wished {0}", show(wish))} bad={state.nights.dark.mean > wish} /></div> : null}
      <PhoneNights state={state} brief={brief} kind={lamp.name ?? ""} size={size} />
      <Caution text={say("A pack of reclaimed cells can burn. Fuse, protection board, vented box and an end of charge are needed whatever the nights say.")} />
    </section>
  );
}
