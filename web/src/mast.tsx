// SPDX-License-Identifier: GPL-3.0-or-later
// Does the mast stand: pipe, what hangs on it, wind, ground. A mast that falls is refused in plain words.
import { Caution, Choice, Headline, NumberField, Say } from "./form";
import { asked, useFirst, useWork } from "./live";
import { mastLamps, mastOf, mastOfPlan, plannedMast, windInto, type MastAsk, type MastSize } from "./mastask";
import { show, signed } from "./numbers";
import { Portrait } from "./portrait";
import type { MastAnswer } from "./shapes";
import { change, useKnown } from "./state";
import { say, told } from "./words";

const materials = (): [string, string][] => [["steel", say("steel, marked S235")], ["steel_unmarked", say("steel, unmarked water pipe")], ["aluminium", say("aluminium")], ["pvc", say("PVC")], ["timber", say("timber C16")], ["timber_c24", say("timber C24")], ["timber_c30", say("timber C30")], ["bamboo", say("bamboo")]];
const terrains = (is: string): [string, string][] => (is === "gust_design"
  ? [["B", say("village, trees")], ["C", say("open fields")], ["D", say("shore")]]
  : [["0", say("open sea")], ["I", say("lake, flat and bare")], ["II", say("fields, few trees")], ["III", say("village, forest")], ["IV", say("town")]]);
const soils = (): [string, string][] => [["sand", say("sand")], ["clay", say("clay")], ["gravel", say("gravel")], ["rock", say("rock")], ["soft", say("soft, wet")]];

/** The core tells reasons as parts of a sentence. */
const sentenceOf = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
const verdict = (answer: MastAnswer): string => ({ stands: say("It stands"), engineer: say("By these numbers it stands; a licensed engineer decides"), not_checked: say("Not checked: no wind given"), falls: say("Refused: it does not stand") } as Record<string, string>)[answer.verdict] ?? sentenceOf(answer.verdict_text).slice(0, -1);

/** Never rounded up to what stands. */
const reserve = (share: number): string => signed((Math.floor(share * 100) / 100).toFixed(2));
function Answer({ answer, m }: { answer: MastAnswer; m: MastSize | undefined }) {
  return (
    <section aria-label={say("The mast")} class={answer.verdict === "falls" ? "refusal" : ""}>
      <h2>{verdict(answer)}</h2>
      {answer.reasons.map((r) => <p key={r}><strong>{sentenceOf(told(r))}</strong></p>)}
      <div class="row">
        {answer.base_depth_m ? <Headline value={show(answer.base_depth_m, 2)} unit="m" of={say("depth of the base")} /> : null}
        {answer.sway_mm ? <Headline value={show(answer.sway_mm, 2)} unit="mm" of={say("the top moves in that wind")} /> : null}
        {answer.reserve ? <Headline value={reserve(answer.reserve)} of={say("strength over load; below 1 it is refused")} bad={answer.reserve < 1} /> : null}
      </div>
      {m ? <figure><Portrait m={m} answer={answer} /><figcaption>{say("To scale. Dashed: how the wind bends it. Blue: the panel; the person is 1.7 m tall.")}</figcaption></figure> : null}
      {answer.cautions.map((c) => <Caution key={c} text={sentenceOf(told(c))} />)}
    </section>
  );
}

const OTHER = "other";

/** The plan's mast of each kind of lamp, or what would be with other values; the way back to the plan's. */
function Whose({ planned }: { planned: boolean }) {
  const known = useKnown(), lamps = mastLamps(known), plan = mastOfPlan(known);
  const kind = known.mastTyped.kind ?? lamps[0]?.kind ?? "";
  const back = (kind: string): void => { if (kind !== OTHER) change({ mastTyped: { kind } }); };
  if (!plan) return null;
  return (
    <>
      {lamps.length > 1 || !planned ? <Choice label={say("Lamp")} value={planned ? kind : OTHER} set={back}
        of={[...lamps.map((l): [string, string] => [l.kind, say("{0}, as planned", l.kind)]), ...(planned ? [] : [[OTHER, say("other values")] as [string, string]])]} /> : null}
      {planned ? null : <div class="note" role="status"><p>{say("Other values than the plan's: they ask what would be. The plan keeps its own mast: {0}, base {1} m deep.", plan.pole ?? "", show(plan.depth_m, 3))}</p>
        <div class="buttons"><button type="button" onClick={() => back(kind)}>{say("Back to the plan's mast")}</button></div></div>}
    </>
  );
}

function Form({ m }: { m: MastSize }) {
  const known = useKnown();
  const set = (part: MastAsk): void => change({ mastTyped: { ...known.mastTyped, ...part } });
  const labels: [string, string][] = [["mean_10min", say("mean of 10 minutes (EN 1991-1-4)")], ["gust_design", say("gust of 3 seconds (ASCE 7)")], ...(m.is === "gust_observed" ? [["gust_observed", say("highest gust that was measured")] as [string, string]] : [])];
  return (
    <form onSubmit={(e) => e.preventDefault()}>
      <div class="pair tight">
        <NumberField label={say("Wind")} unit="m/s" value={m.wind} low={5} high={90} optional hint={say("From the local building code; ask its office. Left out: the mast is not checked.")} set={(wind) => set({ wind: wind ?? null })} />
        <Choice label={say("The code gives it as")} value={m.is} of={labels} set={(is) => set({ is, terrain: terrains(is)[1]?.[0] ?? "C" })} />
        <Choice label={say("Land around")} value={m.terrain} of={terrains(m.is)} set={(terrain) => set({ terrain })} />
        <Choice label={say("Pipe")} value={m.material} of={materials()} set={(material) => set({ material })} />
        <NumberField label={say("Height above ground")} unit="m" value={m.height} low={0.5} high={12} set={(height) => set({ height })} />
        <NumberField label={say("Outer diameter")} unit="mm" value={m.diameter} low={15} high={400} set={(diameter) => set({ diameter })} />
        <NumberField label={say("Wall")} unit="mm" value={m.wall} low={0.5} high={m.diameter / 2} hint={say("Half the diameter: solid.")} set={(wall) => set({ wall })} />
        <NumberField label={say("Area of the panel")} unit="m²" value={m.panel} low={0} high={3} set={(panel) => set({ panel })} />
        <Choice label={say("Ground")} value={m.soil} of={[...soils(), ...(m.soil === "other" ? [["other", say("as measured, in the brief")] as [string, string]] : [])]} set={(soil) => set({ soil })} />
        <NumberField label={say("Width of a concrete collar")} unit="m" value={m.collar} low={0.015} high={1.5} optional hint={m.base === "plate" ? say("The brief puts it on a plate; a width typed here: a collar instead.") : say("Left out: the bare pipe.")} set={(collar) => set({ collar: collar ?? null })} />
      </div>
      <label class="tick"><input type="checkbox" checked={m.people} onChange={(e) => set({ people: e.currentTarget.checked })} /><span>{say("People gather within one and a half heights of it, as in a school yard or a market")}</span></label>
    </form>
  );
}

/** Wind, height, ground and people as typed into the brief; then the plan has them, and its own pole. */
function IntoPlan({ m }: { m: MastSize }) {
  const { brief, mastTyped: typed } = useKnown();
  if (!brief || m.wind === undefined) return null;
  const next = windInto(brief, typed, m), planned = JSON.stringify(next) === JSON.stringify(brief);
  const { kind, material, diameter, wall, panel } = typed;
  return <div class="buttons"><button type="button" disabled={planned} onClick={() => change({ brief: next, mastTyped: { kind, material, diameter, wall, panel } })}>{planned ? say("The plan takes this wind") : say("Plan with this wind, height and ground")}</button></div>;
}

export function MastStage() {
  const known = useKnown(), work = useWork("mast"), planning = useWork("plan"), m = mastOf(known), own = plannedMast(known), answer = own ?? known.mast?.value;
  useFirst("mast");
  const refused = answer?.verdict === "falls" || (!own && work?.refused), word = own ? "" : work?.word ?? "";
  const fresh = own ? known.plan?.asked === asked.plan(known) && !planning?.busy : known.mast?.asked === asked.mast(known) || work?.busy;
  return (
    <>
      <h1>{say("Does the mast stand?")}</h1>
      <Whose planned={own !== undefined} />
      {m ? <Form m={m} /> : null}
      {word && work?.refused ? <section class="refusal" aria-label={say("Refused")}><h2>{say("Refused: it does not stand")}</h2><p role="alert"><strong>{told(word)}</strong></p></section> : <Say what={word} />}
      {answer && !word && (!m || m.wall <= m.diameter / 2) ? <div class={fresh ? "" : "stale"}><Answer answer={answer} m={m} /></div> : null}
      {own ? <p class="quiet">{say("The mast as planned: {0}.", own.pole ?? "")}</p> : null}
      {refused || !m ? null : <IntoPlan m={m} />}
      <Caution text={say("A mast that falls can kill. This check is a screening; where people pass below, a licensed engineer decides.")} />
      <p class="onward"><a class="next" href="#/sheets">{say("Next: print the sheets")}</a></p>
    </>
  );
}
