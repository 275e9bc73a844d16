// SPDX-License-Identifier: GPL-3.0-or-later
// Light on the lane: masts along a straight stretch, lux at the standard's points, what the next mast buys.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Choice, Headline, NumberField, Say } from "./form";
import { LanePlan } from "./laneplan";
import { show, whole } from "./numbers";
import { kinds } from "./start";
import type { LaneLight, Layout, Mast } from "./shapes";
import { asked, change, useKnown, type LaneAsk } from "./state";

const classes: [string, string][] = [
  ["P6", "P6: the path is seen, 2 lx mean"], ["P5", "P5: 3 lx mean"], ["P4", "P4: 5 lx mean"], ["P3", "P3: 7.5 lx mean"], ["P2", "P2: 10 lx mean"], ["P1", "P1: 15 lx mean"],
];
const sides: [string, string][] = [["one", "along one side"], ["staggered", "left and right in turn"], ["middle", "over the middle"]];

/** Masts spread evenly; the first and last half a spacing from the ends. */
export function mastsOf(a: LaneAsk): Mast[] {
  const spacing = a.length_m / a.masts;
  return Array.from({ length: a.masts }, (_, i) => {
    const far = a.side === "staggered" && i % 2 === 1;
    return {
      x_m: spacing * (i + 0.5), y_m: a.side === "middle" ? a.width_m / 2 : far ? a.width_m + 0.3 : -0.3,
      height_m: a.height_m, turn_deg: far ? -90 : 90, tilt_deg: a.side === "middle" ? 0 : 10,
    };
  });
}

export function LightStage() {
  const known = useKnown();
  const a = known.lane;
  const [word, setWord] = useState("");
  const [options, setOptions] = useState<Layout[] | null>(null);
  const [busy, setBusy] = useState(false);
  const set = (part: Partial<LaneAsk>): void => change({ lane: { ...a, ...part } });
  const question = asked.light(known);

  useEffect(() => {
    if (known.light?.asked === question) return undefined;
    const stop = new AbortController();
    const later = setTimeout(() => {
      ask<LaneLight>("POST", "/light/lane", {
        format: "lanewick.lane/1", field: { length_m: a.length_m, width_m: a.width_m }, head: { lumens: a.lumens, cos_power: 1 }, masts: mastsOf(a), class: a.class,
      }, stop.signal).then((value) => { setWord(""); change({ light: { asked: question, value } }); },
        (error: unknown) => { if (!stop.signal.aborted) setWord(sentence(error)); });
    }, 250);
    return () => { clearTimeout(later); stop.abort(); };
  }, [question]);

  const search = async (): Promise<void> => {
    setBusy(true);
    setWord("");
    try {
      const found = await ask<{ options: Layout[] }>("POST", "/light/search", {
        format: "lanewick.lane-wish/1", length_m: a.length_m, width_m: a.width_m, class: a.class, heights_m: [3, 4, 5], most_masts: Math.min(40, Math.max(4, Math.ceil(a.length_m / 8))),
      });
      setOptions(found.options);
    } catch (error) { setWord(sentence(error)); }
    setBusy(false);
  };
  const light = known.light?.value;
  /* The first kind of lamp of the brief takes the masts and lumens found here. */
  const intoBrief = (): void => {
    if (!known.brief) return;
    const [first, ...others] = kinds(known.brief);
    const { lumens: _all, ...want } = known.brief.want;
    change({ brief: { ...known.brief, want: { ...want, lamps: [{ ...first, count: a.masts, lumens: a.lumens }, ...others] } } });
    location.hash = "#/power";
  };
  return (
    <>
      <h1>Light on the lane</h1>
      <p class="lead">Change a number: the light is computed at once.</p>
      <form onSubmit={(e) => { e.preventDefault(); void search(); }}>
        <div class="pair">
          <NumberField label="Length of the lane" unit="m" value={a.length_m} low={1} high={2000} set={(v) => set({ length_m: v ?? a.length_m })} />
          <NumberField label="Width" unit="m" value={a.width_m} low={0.5} high={50} set={(v) => set({ width_m: v ?? a.width_m })} />
          <NumberField label="Masts" value={a.masts} low={1} high={40} whole set={(v) => set({ masts: v ?? a.masts })} />
          <NumberField label="Height of the head" unit="m" value={a.height_m} low={1} high={20} set={(v) => set({ height_m: v ?? a.height_m })} />
          <NumberField label="Light of one head" unit="lm" value={a.lumens} low={5} high={20000} set={(v) => set({ lumens: v ?? a.lumens })} />
          <Choice label="Masts stand" value={a.side} of={sides} set={(side) => set({ side })} />
          <Choice label="Bright enough" value={a.class} of={classes} set={(c) => set({ class: c })} hint="Classes of EN 13201-2; lx (lux) is the light that falls on the ground." />
        </div>
        <Say what={word} />
        {light ? (
          <section aria-label="Light" class={known.light?.asked === question ? "" : "stale"}>
            <div class="row">
              <Headline value={show(light.average_lx, 2)} unit="lx" of="mean on the lane" />
              <Headline value={show(light.minimum_lx, 2)} unit="lx" of="darkest point" />
              <Headline value={light.class ?? "none"} of={light.wanted_class_met ? `class reached, ${a.class} is met` : `class reached, ${a.class} is missed`} bad={!light.wanted_class_met} />
            </div>
            <p>{light.in_words}</p>
            <LanePlan light={light} lane={a} masts={mastsOf(a)} />
            {known.brief ? <p><button type="button" onClick={intoBrief}>Plan {a.masts} lamps of {a.lumens} lm</button></p> : null}
          </section>
        ) : null}
        <button class="main" disabled={busy}>{busy ? "Searching…" : "Search masts that meet the class"}</button>
      </form>
      {options ? (
        <section aria-label="Masts that meet the class">
          <h2>Each line meets {a.class}</h2>
          {options.length === 0 ? <p>No number of masts meets it with these heads. Choose a lower class or more masts.</p> : null}
          <div class="scroll" tabIndex={0} role="region" aria-label="Masts to choose from"><table><thead><tr><th>Masts</th><th>Height</th><th>Each head</th><th>Together</th><td /></tr></thead>
            <tbody>{options.map((o) => <tr key={o.masts}>
              <th scope="row">{o.masts}</th><td>{show(o.height_m, 2)} m, {sides.find(([s]) => s === o.side)?.[1]}</td><td>{whole(o.lumens_each)} lm</td><td>{whole(o.watts_together)} W</td>
              <td><button type="button" class="small" aria-label={`Take ${o.masts} masts`} onClick={() => set({ masts: o.masts, height_m: o.height_m, side: o.side, lumens: Math.ceil(o.lumens_each) })}>Take</button></td>
            </tr>)}</tbody></table></div>
        </section>
      ) : null}
    </>
  );
}
