// SPDX-License-Identifier: GPL-3.0-or-later
// Does the mast stand: pipe, what hangs on it, wind, ground. A mast that falls is refused in plain words.
import { useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Caution, Choice, Headline, NumberField, Say } from "./form";
import { show } from "./numbers";
import { change, useKnown } from "./state";

export interface MastAnswer {
  verdict: string; verdict_text: string; reasons: string[]; cautions: string[]; reserve?: number; sway_mm?: number; base_depth_m?: number; total_kg?: number;
}
interface Wish { material: string; height: number; diameter: number; wall: number; wind: number | undefined; is: string; terrain: string; soil: string; collar: number | undefined; panel: number }

const materials: [string, string][] = [["steel", "steel, marked S235"], ["steel_unmarked", "steel, unmarked water pipe"], ["aluminium", "aluminium"], ["pvc", "PVC"], ["timber", "timber C16"], ["bamboo", "bamboo"]];
const terrains: Record<string, [string, string][]> = {
  mean_10min: [["0", "open sea"], ["I", "lake, flat and bare"], ["II", "fields, few trees"], ["III", "village, forest"], ["IV", "town"]],
  gust_design: [["B", "village, trees"], ["C", "open fields"], ["D", "shore"]],
};
const soils: [string, string][] = [["sand", "sand"], ["clay", "clay"], ["gravel", "gravel"], ["rock", "rock"], ["soft", "soft, wet"]];

function documentOf(w: Wish): object {
  const top = w.height;
  return {
    format: "lanewick.mast/1",
    ...(w.wind === undefined ? {} : { wind: { speed_m_s: w.wind, speed_is: w.is, terrain: w.terrain } }),
    panel: { area_m2: w.panel, height_m: top + 0.1, tilt_deg: 15, width_m: Math.sqrt(w.panel), kg: 11 * w.panel },
    box: { area_m2: 0.04, height_m: top * 0.8, kg: 2.1 },
    head: { area_m2: 0.03, height_m: top - 0.1, kg: 0.6, arm_m: 0.35 },
    pipe: { material: w.material, height_m: w.height, diameter_mm: w.diameter, wall_mm: w.wall },
    base: { soil: w.soil, ...(w.collar ? { collar_m: w.collar } : {}) },
  };
}

/** The core tells reasons as parts of a sentence. */
const sentenceOf = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
const verdicts: Record<string, string> = { stands: "It stands" };

function Answer({ answer }: { answer: MastAnswer }) {
  const stands = answer.verdict === "stands";
  return (
    <section aria-label="The mast" class={stands ? "" : "refusal"}>
      <h2>{verdicts[answer.verdict] ?? answer.verdict_text.replace(/^./, (c) => c.toUpperCase())}</h2>
      {answer.reasons.map((r) => <p key={r}><strong>{sentenceOf(r)}</strong></p>)}
      <div class="row">
        {answer.base_depth_m ? <Headline value={show(answer.base_depth_m, 2)} unit="m" of="depth of the base" /> : null}
        {answer.sway_mm ? <Headline value={show(answer.sway_mm, 2)} unit="mm" of="the top moves in that wind" /> : null}
        {answer.reserve ? <Headline value={show(answer.reserve, 3)} of="strength over load; below 1 it is refused" bad={answer.reserve < 1} /> : null}
      </div>
      {answer.cautions.map((c) => <Caution key={c} text={sentenceOf(c)} />)}
    </section>
  );
}

export function MastStage() {
  const known = useKnown();
  const [w, setW] = useState<Wish>({ material: "steel", height: 4, diameter: 76.1, wall: 3.2, wind: undefined, is: "mean_10min", terrain: "II", soil: "sand", collar: 0.3, panel: 0.2 });
  const [word, setWord] = useState("");
  const set = (part: Partial<Wish>): void => setW({ ...w, ...part });
  const question = JSON.stringify(w);
  const go = async (event: Event): Promise<void> => {
    event.preventDefault();
    setWord("");
    try {
      change({ mast: { asked: question, value: await ask<MastAnswer>("POST", "/mast", documentOf(w)) } });
    } catch (error) { setWord(sentence(error)); }
  };
  return (
    <>
      <h1>Does the mast stand?</h1>
      <form onSubmit={(e) => void go(e)}>
        <div class="pair">
          <Choice label="Pipe" value={w.material} of={materials} set={(material) => set({ material })} />
          <NumberField label="Height above ground" unit="m" value={w.height} low={0.5} high={12} set={(v) => set({ height: v ?? w.height })} />
          <NumberField label="Outer diameter" unit="mm" value={w.diameter} low={15} high={400} set={(v) => set({ diameter: v ?? w.diameter })} />
          <NumberField label="Wall" unit="mm" value={w.wall} low={0.5} high={200} hint="Half the diameter: solid." set={(v) => set({ wall: v ?? w.wall })} />
          <NumberField label="Area of the panel" unit="m²" value={w.panel} low={0} high={3} set={(v) => set({ panel: v ?? w.panel })} />
          <Choice label="Ground" value={w.soil} of={soils} set={(soil) => set({ soil })} />
          <NumberField label="Width of a concrete collar" unit="m" value={w.collar} low={0.015} high={1.5} optional hint="Left out: the bare pipe." set={(v) => set({ collar: v })} />
          <NumberField label="Wind" unit="m/s" value={w.wind} low={5} high={90} optional hint="From the local building code; ask its office. Left out: the mast is not checked." set={(v) => set({ wind: v })} />
          <Choice label="The code gives it as" value={w.is} of={[["mean_10min", "mean of 10 minutes (EN 1991-1-4)"], ["gust_design", "gust of 3 seconds (ASCE 7)"]]} set={(is) => set({ is, terrain: terrains[is]?.[1]?.[0] ?? "C" })} />
          <Choice label="Land around" value={w.terrain} of={terrains[w.is] ?? []} set={(terrain) => set({ terrain })} />
        </div>
        <button class="main">Check the mast</button>
      </form>
      <Say what={word} />
      {known.mast ? <div class={known.mast.asked === question ? "" : "stale"}><Answer answer={known.mast.value} /></div> : null}
    </>
  );
}
