// SPDX-License-Identifier: GPL-3.0-or-later
// Does the mast stand: pipe, what hangs on it, wind, ground. A mast that falls is refused in plain words.
import { mastOf, windInto, type MastAsk, type MastSize } from "./asks";
import { Caution, Choice, Headline, NumberField, Say } from "./form";
import { asked, useFirst, useWork } from "./live";
import { show } from "./numbers";
import { Portrait } from "./portrait";
import type { MastAnswer } from "./shapes";
import { change, useKnown } from "./state";
import { say, told } from "./words";

const materials = (): [string, string][] => [["steel", say("steel, marked S235")], ["steel_unmarked", say("steel, unmarked water pipe")], ["aluminium", say("aluminium")], ["pvc", say("PVC")], ["timber", say("timber C16")], ["bamboo", say("bamboo")]];
const terrains = (is: string): [string, string][] => (is === "gust_design"
  ? [["B", say("village, trees")], ["C", say("open fields")], ["D", say("shore")]]
  : [["0", say("open sea")], ["I", say("lake, flat and bare")], ["II", say("fields, few trees")], ["III", say("village, forest")], ["IV", say("town")]]);
const soils = (): [string, string][] => [["sand", say("sand")], ["clay", say("clay")], ["gravel", say("gravel")], ["rock", say("rock")], ["soft", say("soft, wet")]];

/** The core tells reasons as parts of a sentence. */
const sentenceOf = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
const verdict = (answer: MastAnswer): string => ({ stands: say("It stands"), engineer: say("By these numbers it stands; a licensed engineer decides"), not_checked: say("Not checked: no wind given"), falls: say("Refused: it does not stand") } as Record<string, string>)[answer.verdict] ?? sentenceOf(answer.verdict_text).slice(0, -1);

function Answer({ answer, m }: { answer: MastAnswer; m: MastSize }) {
  return (
    <section aria-label={say("The mast")} class={answer.verdict === "falls" ? "refusal" : ""}>
      <h2>{verdict(answer)}</h2>
      {answer.reasons.map((r) => <p key={r}><strong>{sentenceOf(told(r))}</strong></p>)}
      <div class="row">
        {answer.base_depth_m ? <Headline value={show(answer.base_depth_m, 2)} unit="m" of={say("depth of the base")} /> : null}
        {answer.sway_mm ? <Headline value={show(answer.sway_mm, 2)} unit="mm" of={say("the top moves in that wind")} /> : null}
        {answer.reserve ? <Headline value={show(answer.reserve, 3)} of={say("strength over load; below 1 it is refused")} bad={answer.reserve < 1} /> : null}
      </div>
      <figure><Portrait m={m} answer={answer} /><figcaption>{say("To scale. Dashed: how the wind bends it. Blue: the panel; the person is 1.7 m tall.")}</figcaption></figure>
      {answer.cautions.map((c) => <Caution key={c} text={sentenceOf(told(c))} />)}
    </section>
  );
}

export function MastStage() {
  const known = useKnown(), work = useWork("mast"), m = mastOf(known), answer = known.mast?.value;
  useFirst("mast");
  const set = (part: Partial<MastAsk>): void => change({ mastAsk: { ...known.mastAsk, ...part } });
  const refused = answer?.verdict === "falls" || work?.refused;
  const planned = known.brief !== null && JSON.stringify(windInto(known.brief, m)) === JSON.stringify(known.brief);
  const fresh = known.mast?.asked === asked.mast(known);
  return (
    <>
      <h1>{say("Does the mast stand?")}</h1>
      <form onSubmit={(e) => e.preventDefault()}>
        <div class="pair tight">
          <NumberField label={say("Wind")} unit="m/s" value={m.wind} low={5} high={90} optional hint={say("From the local building code; ask its office. Left out: the mast is not checked.")} set={(wind) => set({ wind })} />
          <Choice label={say("The code gives it as")} value={m.is} of={[["mean_10min", say("mean of 10 minutes (EN 1991-1-4)")], ["gust_design", say("gust of 3 seconds (ASCE 7)")]]} set={(is) => set({ is, terrain: terrains(is)[1]?.[0] ?? "C" })} />
          <Choice label={say("Land around")} value={m.terrain} of={terrains(m.is)} set={(terrain) => set({ terrain })} />
          <Choice label={say("Pipe")} value={m.material} of={materials()} set={(material) => set({ material })} />
          <NumberField label={say("Height above ground")} unit="m" value={m.height} low={0.5} high={12} set={(height) => set({ height })} />
          <NumberField label={say("Outer diameter")} unit="mm" value={m.diameter} low={15} high={400} set={(v) => set({ diameter: v ?? m.diameter })} />
          <NumberField label={say("Wall")} unit="mm" value={m.wall} low={0.5} high={200} hint={say("Half the diameter: solid.")} set={(v) => set({ wall: v ?? m.wall })} />
          <NumberField label={say("Area of the panel")} unit="m²" value={m.panel} low={0} high={3} set={(panel) => set({ panel })} />
          <Choice label={say("Ground")} value={m.soil} of={soils()} set={(soil) => set({ soil })} />
          <NumberField label={say("Width of a concrete collar")} unit="m" value={m.collar} low={0.015} high={1.5} optional hint={say("Left out: the bare pipe.")} set={(collar) => set({ collar })} />
        </div>
      </form>
      {work?.refused ? <section class="refusal" aria-label={say("Refused")}><h2>{say("Refused: it does not stand")}</h2><p role="alert"><strong>{told(work.word)}</strong></p></section> : <Say what={work?.word ?? ""} />}
      {answer && !work?.word ? <div class={fresh || work?.busy ? "" : "stale"}><Answer answer={answer} m={m} /></div> : null}
      {known.brief && m.wind !== undefined && !refused ? <div class="buttons"><button type="button" disabled={planned} onClick={() => { if (known.brief) change({ brief: windInto(known.brief, m) }); }}>{planned ? say("The plan takes this wind") : say("Plan with this wind, height and ground")}</button></div> : null}
      <Caution text={say("A mast that falls can kill. This check is a screening; where people pass below, a licensed engineer decides.")} />
      <p class="onward"><a class="next" href="#/sheets">{say("Next: print the sheets")}</a></p>
    </>
  );
}
