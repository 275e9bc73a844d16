// SPDX-License-Identifier: GPL-3.0-or-later
// Light on the lane: masts along a straight stretch, lux at the standard's points, what the next mast buys.
import { useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { laneWish, LEFT, takenInto, TILT_DEG, type LaneAsk, type Stand } from "./asks";
import { BentPlan, groundInWords } from "./bentplan";
import { fieldOf, lengthOf, sameField, type Bent } from "./field";
import { Choice, Headline, NumberField, Say, Slider } from "./form";
import { LanePlan } from "./laneplan";
import { asked, useFirst, useWork } from "./live";
import { show, whole } from "./numbers";
import { kinds } from "./start";
import type { LampKind, LaneLight, Layout } from "./shapes";
import { change, useKnown, type Answered } from "./state";
import { say, sayMany, sentenceOf } from "./words";

const classes = (): [string, string][] => [
  ["P6", say("P6: the path is seen, 2 lx mean")], ["P5", say("P5: 3 lx mean")], ["P4", say("P4: 5 lx mean")], ["P3", say("P3: 7.5 lx mean")], ["P2", say("P2: 10 lx mean")], ["P1", say("P1: 15 lx mean")],
];
/** Where ways cross and people gather. */
const squares = (): [string, string][] => [["C5", say("C5: 7.5 lx mean, evenly")], ["C4", say("C4: 10 lx mean, evenly")], ["C3", say("C3: 15 lx mean, evenly")], ["C2", say("C2: 20 lx mean, evenly")], ["C1", say("C1: 30 lx mean, evenly")], ["C0", say("C0: 50 lx mean, evenly")]];
const sides = (): [string, string][] => [["one", say("along one side")], ["staggered", say("left and right in turn")], ["middle", say("over the middle")]];

/** What was searched, whatever is chosen above since. */
interface Found { lane: LaneAsk; options: Layout[] }
function Choices({ found: { lane, options }, now, take }: { found: Found; now: LaneAsk; take: (option: Layout) => void }) {
  const old = lane.class !== now.class || !sameField(lane, now);
  return (
    <section aria-label={say("Masts that meet the class")} class={old ? "stale" : ""}>
      <h2>{say("Each line meets {0}", lane.class)}</h2>
      {old ? <p class="note">{lane.field ? say("An old list, for {0} on another lane or class. Search again.", lane.class) : say("An old list, for {0} on a lane of {1} × {2} m. Search again.", lane.class, show(lane.length_m), show(lane.width_m))}</p> : null}
      {options.length === 0 ? <p>{say("No number of masts meets it with these heads. Choose a lower class or more masts.")}</p> : null}
      <div class="scroll" tabIndex={0} role="region" aria-label={say("Masts to choose from")}><table><thead><tr><th>{say("Masts")}</th><th>{say("Height")}</th><th>{say("Each head")}</th><th>{say("Together")}</th><td /></tr></thead>
        <tbody>{options.map((o) => <tr key={o.masts}>
          <th scope="row">{o.masts}</th><td>{say("{0} m, {1}, tilt {2}°", show(o.height_m, 2), sides().find(([s]) => s === o.side)?.[1] ?? "", show(o.tilt_deg, 2))}</td><td>{whole(Math.ceil(o.lumens_each))} lm</td><td>{whole(o.watts_together)} W</td>
          <td><button type="button" class="small" aria-label={say("Take {0} masts", o.masts)} onClick={() => take(o)}>{say("Take")}</button></td>
        </tr>)}</tbody></table></div>
    </section>
  );
}

/** The light as it was answered, on the ground for which it was asked; masts move on the present one. */
function Plan({ light, lane, set }: { light: Answered<LaneLight>; lane: LaneAsk; set: (at: Stand[]) => void }) {
  const asked = JSON.parse(light.asked) as LaneAsk, now = sameField(asked, lane), drawn = now ? lane : asked, move = now ? set : () => undefined;
  return drawn.field ? <BentPlan light={light.value} lane={{ ...drawn, field: drawn.field }} set={move} /> : <LanePlan light={light.value} lane={drawn} set={move} />;
}

/** The brief's bent lane or square, which is not typed here. */
function Ground({ lane, straight }: { lane: LaneAsk & { field: Bent }; straight: () => void }) {
  return (
    <div class="field shape">
      <p>{groundInWords(lane)} {say("Its shape is the brief's.")}</p>
      <div class="buttons"><button type="button" onClick={straight}>{say("A straight lane instead")}</button></div>
    </div>
  );
}

export function LightStage() {
  const known = useKnown(), a = known.lane, work = useWork("light");
  const [word, setWord] = useState("");
  const [list, setList] = useState<Found | null>(null);
  const [busy, setBusy] = useState(false);
  useFirst("light");
  const set = (part: Partial<LaneAsk>): void => change({ lane: { ...a, ...part } });
  /* Another number or row of masts stands evenly again. */
  const anew = (part: Partial<LaneAsk>): void => set({ at: undefined, ...part });

  const search = async (): Promise<void> => {
    setBusy(true);
    setWord("");
    try {
      const answer = await ask<{ options: Layout[] }>("POST", "/light/search", {
        format: "lanewick.lane-wish/1", ...fieldOf(a), offset_m: a.beside_m, class: a.class, maintenance: a.left ?? LEFT, head: a.head, heights_m: [3, 4, 5],
        most_masts: Math.min(40, Math.max(4, Math.ceil((a.field ? lengthOf(a.field) : a.length_m) / 8))),
      });
      setList({ lane: a, options: answer.options });
    } catch (error) { setWord(sentence(error)); }
    setBusy(false);
  };
  const light = known.light?.value, level = a.level ?? 1;
  /* The first kind of lamp of the brief takes the masts and lumens found here, or the lane for which the plan seeks them. */
  const intoBrief = (lamp: LampKind, lane?: object): void => {
    if (!known.brief) return;
    const [{ count: _count, lumens: _lumens, ...first } = {}, ...others] = kinds(known.brief);
    const { lumens: _all, lane: _lane, ...want } = known.brief.want;
    change({ brief: { ...known.brief, want: { ...want, ...(lane ? { lane } : {}), lamps: [{ ...first, ...lamp }, ...others] } } });
    location.hash = "#/power";
  };
  const wish = (known.brief?.want["lane"] ?? {}) as Record<string, unknown>, others = Array.isArray(wish["also"]) ? wish["also"].length : 0;
  const first = known.brief ? kinds(known.brief)[0] : undefined, planned = first?.count === a.masts && first.lumens === a.lumens;
  return (
    <>
      <h1>{say("Light on the lane")}</h1>
      <p class="lead">{say("Change a number or drag a mast: the light is computed at once.")}</p>
      <form onSubmit={(e) => { e.preventDefault(); void search(); }}>
        <div class="pair tight">
          {a.field ? <Ground lane={{ ...a, field: a.field }} straight={() => anew({ field: undefined, class: a.class.replace(/^C.$/, "P6") })} />
            : <NumberField label={say("Length of the lane")} unit="m" value={a.length_m} low={1} high={2000} set={(v) => anew({ length_m: v ?? a.length_m })} />}
          {a.field?.polygon ? null : <NumberField label={say("Width")} unit="m" value={a.width_m} low={0.5} high={50} set={(v) => anew({ width_m: v ?? a.width_m })} />}
          <NumberField label={say("Masts")} value={a.masts} low={1} high={120} whole set={(v) => anew({ masts: v ?? a.masts })} />
          <NumberField label={say("Height of the head")} unit="m" value={a.height_m} low={1} high={20} set={(v) => set({ height_m: v ?? a.height_m })} />
          <NumberField label={say("Tilt of the heads")} unit="°" value={a.tilt ?? TILT_DEG} low={0} high={60} set={(tilt) => set({ tilt })} />
          <NumberField label={say("Light of one head")} unit="lm" value={a.lumens} low={5} high={20000} set={(v) => set({ lumens: v ?? a.lumens })} />
          <NumberField label={say("Light that is left")} unit="%" value={Number((100 * (a.left ?? LEFT)).toFixed(3))} low={1} high={100} set={(v) => set({ left: v === undefined ? undefined : v / 100 })} hint={say("Of that of new, clean heads, when they are oldest and dirtiest.")} />
          {a.field?.polygon ? null : <Choice label={say("Masts stand")} value={a.side} of={sides()} set={(side) => anew({ side })} />}
          <Choice label={say("Bright enough")} value={a.class} of={a.field?.polygon || a.class.startsWith("C") ? [...classes(), ...squares()] : classes()} set={(c) => set({ class: c })} hint={say("Classes of EN 13201-2; lx (lux) is the light that falls on the ground.")} />
          <Slider label={say("Light level")} value={Math.round(level * 100)} low={5} high={100} step={5} told={level === 1 ? say("full light") : say("turned down to {0} %", Math.round(level * 100))} set={(v) => set({ level: v / 100 })} />
        </div>
        <Say what={word || (work?.word ?? "")} />
        {light ? (
          <section aria-label={say("Light")} class={known.light?.asked === asked.light(known) || work?.busy ? "" : "stale"}>
            <div class="row">
              <Headline value={show(light.average_lx, 2)} unit="lx" of={say("mean on the lane")} />
              <Headline value={show(light.minimum_lx, 2)} unit="lx" of={say("darkest point")} />
              <Headline value={light.class ?? say("none")} of={light.wanted_class_met ? say("class reached, {0} is met", a.class) : say("class reached, {0} is missed", a.class)} bad={!light.wanted_class_met} />
            </div>
            <Plan light={known.light as Answered<LaneLight>} lane={a} set={(at) => set({ at })} />
            {a.at ? <div class="buttons"><button type="button" onClick={() => set({ at: undefined })}>{say("Spread the masts evenly")}</button></div> : null}
            <p>{sentenceOf(light.in_words)}{a.head ? ` ${say("The heads spread their light as the brief tells.")}` : ""}</p>
            {others ? <p class="note">{sayMany("{0} other lamp that lights this lane in the plan is not counted here.", "{0} other lamps that light this lane in the plan are not counted here.", others)}</p> : null}
          </section>
        ) : null}
        <div class="buttons">
          {known.brief && !planned ? <button type="button" class="main" onClick={() => intoBrief({ count: a.masts, lumens: a.lumens })}>{sayMany("Plan {0} lamp of {1} lm", "Plan {0} lamps of {1} lm", a.masts, whole(a.lumens))}</button> : null}
          {known.brief ? <button type="button" onClick={() => intoBrief({}, laneWish(a, wish))}>{say("Let the plan find masts and heads")}</button> : null}
          <button class={planned ? "main" : ""} disabled={busy}>{busy ? say("Searching…") : say("Search masts that meet the class")}</button>
        </div>
      </form>
      {list ? <Choices found={list} now={a} take={(o) => change({ lane: takenInto(list.lane, o) })} /> : null}
      <p class="onward"><a class="next" href="#/power">{say("Next: plan the lamps")}</a></p>
    </>
  );
}
