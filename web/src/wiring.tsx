// SPDX-License-Identifier: GPL-3.0-or-later
// The wiring as a live drawing: what each test point of the lamp should read, to check it before it goes up the mast.
import { useState } from "preact/hooks";
import { wiringOf } from "./asks";
import { Caution, Choice, NumberField, Say } from "./form";
import { asked, useFirst, useWork, type Work } from "./live";
import { signed } from "./numbers";
import type { Circuit, Reading, Readings } from "./shapes";
import { change, useKnown } from "./state";
import { area, SwitchValues, WiredParts } from "./wired";
import { say, sentenceOf, told } from "./words";

interface Point { id: string; name: string; x: number; y: number; side: "left" | "right" }
/** The order of the numbers is the way of the current; two readings at one place share its number. */
const points = (): Point[] => [
  { id: "panel_v", name: say("Panel, voltage"), x: 170, y: 62, side: "left" }, { id: "panel_a", name: say("Panel, current"), x: 170, y: 62, side: "right" },
  { id: "charger_v", name: say("Charger input, voltage"), x: 170, y: 84, side: "left" }, { id: "charge_a", name: say("Charging current"), x: 170, y: 150, side: "right" },
  { id: "bus_v", name: say("Behind the protection board, voltage"), x: 170, y: 172, side: "left" },
  { id: "pack_v", name: say("Pack, voltage"), x: 80, y: 290, side: "left" }, { id: "pack_a", name: say("Pack, current out"), x: 80, y: 290, side: "right" },
  { id: "node_v", name: say("Dusk switch, divider"), x: 216, y: 226, side: "right" }, { id: "reference_v", name: say("Dusk switch, reference"), x: 216, y: 244, side: "right" },
  { id: "gate_v", name: say("Dusk switch, gate"), x: 216, y: 262, side: "right" }, { id: "switch_v", name: say("Across the switch"), x: 260, y: 294, side: "left" },
  { id: "head_v", name: say("Head, voltage"), x: 260, y: 316, side: "left" }, { id: "lamp_a", name: say("Head, current"), x: 260, y: 316, side: "right" }, { id: "string_a", name: say("One LED string, current"), x: 216, y: 366, side: "right" },
];
const unit = (id: string): string => (id.endsWith("_a") ? "A" : "V");
/** As many decimals as a meter of a workshop shows. */
const read = (value: number, id: string): string => signed(value.toFixed(unit(id) === "A" ? 3 : 2).replace(/^-(0\.0+)$/, "$1"));
const numbered = (list: Point[]): { point: Point; number: number }[] => {
  const places: string[] = [];
  return list.map((point) => {
    const place = `${point.x} ${point.y}`;
    if (!places.includes(place)) places.push(place);
    return { point, number: places.indexOf(place) + 1 };
  });
};

function Block({ x, y, w, h, name, more }: { x: number; y: number; w: number; h: number; name: string; more?: string }) {
  return <g><rect x={x} y={y} width={w} height={h} rx="5" class="block" /><text x={x + w / 2} y={more ? y + h / 2 - 2 : y + h / 2 + 4} class="named">{name}</text>{more ? <text x={x + w / 2} y={y + h / 2 + 12}>{more}</text> : null}</g>;
}

/** A name that is wider than its block stands on two lines. */
const lines = (name: string): string[] => (name.length > 17 ? name.split(/ (?=\S*$)/) : [name]);

interface Drawn { size: string; fuse: string; wires?: { panel: string; pack: string; head: string } | undefined }
function Drawing({ readings, size, fuse, wires }: Drawn & { readings: Record<string, Reading> }) {
  return (
    <svg viewBox="0 0 340 400" class="plot circuit" role="img" aria-label={say("Panel, charger, pack with fuse and protection board, dusk switch and head, with the reading at each test point. The table below tells the same.")}>
      <path d="M170 44V100M170 136V172M80 172H260M80 172V192M80 212V232M80 262V312M260 172V184M260 278V334" class="wirepath" />
      <Block x={105} y={8} w={130} h={36} name={say("Panel")} /><Block x={105} y={100} w={130} h={36} name={say("Charger")} />
      <rect x="62" y="192" width="36" height="20" class="block" /><path d="M62 202h36" class="wirepath" /><text x="104" y="206" class="left">{fuse}</text>
      <Block x={10} y={232} w={140} h={30} name={say("Protection board")} /><Block x={10} y={312} w={140} h={52} name={say("Pack")} more={size} />
      <rect x="200" y="184" width="120" height="94" rx="5" class="block" />{lines(say("Dusk switch")).map((line, i, all) => <text key={i} x="260" y={(all.length > 1 ? 198 : 206) + 13 * i} class="named">{line}</text>)}
      <rect x="200" y="334" width="120" height="44" rx="5" class="block" /><text x="260" y="350" class="named">{say("Head")}</text>
      {wires ? <><text x="182" y="88" class="left">{wires.panel}</text><text x="88" y="277" class="left">{wires.pack}</text><text x="268" y="178" class="left">{wires.head}</text></> : null}
      {numbered(points().filter((point) => readings[point.id])).map(({ point: p, number }) => {
        const r = readings[p.id];
        return (
          <g key={p.id}>
            <circle cx={p.x} cy={p.y} r="8" class="testpoint" /><text x={p.x} y={p.y + 4} class="testnumber">{number}</text>
            {r ? <text x={p.side === "left" ? p.x - 12 : p.x + 12} y={p.id === "bus_v" ? p.y - 5 : p.y + 4} class={p.side === "left" ? "right value" : "left value"}>{read(r.expected, p.id)} {unit(p.id)}</text> : null}
          </g>
        );
      })}
    </svg>
  );
}

function Answer({ answer, note, ...drawn }: Drawn & { answer: Readings; note: string }) {
  const [when, setWhen] = useState("dusk");
  const condition = answer.conditions[when];
  const stops = answer.findings?.filter((f) => f.level === "refused") ?? [], dangers = answer.findings?.filter((f) => f.level === "danger") ?? [], good = answer.findings?.filter((f) => f.level !== "refused" && f.level !== "danger") ?? [];
  const named = (condition: string): string => told(answer.conditions[condition]?.text ?? condition);
  return (
    <>
      {answer.refused ? <section class="refusal" aria-label={say("Refused")}><h2>{say("Refused: this must not be built")}</h2>{stops.map((f) => <p key={f.text}><strong>{sentenceOf(named(f.condition)).slice(0, -1)}:</strong> {told(f.text)}.</p>)}</section> : null}
      <Choice label={say("When you measure")} value={when} set={setWhen} of={Object.entries(answer.conditions).map(([id, c]) => [id, told(c.text)])} />
      {condition ? <>
        <figure><Drawing readings={condition.points} {...drawn} /><figcaption>{say("The round marks are the test points; plus wires only. Black lead of the meter at the pack's minus.")}</figcaption></figure>
        <div class="scroll" tabIndex={0} role="region" aria-label={say("Readings as numbers")}><table><thead><tr><th>{say("Test point")}</th><th>{say("Reads")}</th><th>{say("May be")}</th></tr></thead>
          <tbody>{numbered(points().filter((point) => condition.points[point.id])).map(({ point, number }) => {
            const p = condition.points[point.id];
            return p ? <tr key={point.id}><th scope="row">{number}. {point.name}</th><td>{read(p.expected, point.id)} {unit(point.id)}</td><td>{say("{0} to {1}", read(p.low, point.id), read(p.high, point.id))}</td></tr> : null;
          })}</tbody></table></div>
      </> : null}
      {dangers.map((f) => <Caution key={f.text} at={named(f.condition)} text={sentenceOf(f.text)} />)}
      {good.length ? <details><summary>{say("What was also looked at")}</summary><ul>{good.map((f) => <li key={f.text}>{sentenceOf(named(f.condition)).slice(0, -1)}: {told(f.text)}</li>)}</ul></details> : null}
      <p class="quiet">{note}</p>
    </>
  );
}

/** The planned lamp: its own readings, wires and switch; nothing is asked anew. */
function Planned({ circuit, index }: { circuit: Circuit; index: number }) {
  const known = useKnown(), lamp = known.plan?.value.lamps[index], p = circuit.parts;
  const wires = p ? { panel: area(p.panel_wire), pack: area(p.pack_wire), head: area(p.head_wire) } : undefined;
  return (
    <>
      {circuit.conditions ? <section aria-label={say("Readings")}><Answer answer={{ ...circuit, conditions: circuit.conditions }} wires={wires} size={say("{0} × {1} cells", lamp?.size.series ?? 0, lamp?.size.parallel ?? 0)} fuse={say("fuse {0} A", signed(String(p?.fuse_a ?? 0)))}
        note={say("This very lamp, as planned. “May be”: nine of ten lamps built from such parts.")} /></section> : <Say what={circuit.why_not ?? ""} />}
      {p ? <WiredParts of={p} /> : null}
      {lamp?.switch ? <SwitchValues of={lamp.switch} /> : <p class="quiet">{say("The driver's own dusk switch turns this lamp on and off.")}</p>}
    </>
  );
}

/** What the laptop calls a field of its document, as this form names it. */
const fields = (): Record<string, string> => ({ "pack.series": say("Groups in series"), "pack.parallel": say("Cells in a group"), "panel.voc_v": say("Panel, open voltage"), "panel.vmp_v": say("Panel, open voltage"), "panel.cells": say("Panel, open voltage"), "panel.isc_a": say("Panel, short-circuit current"), "panel.imp_a": say("Panel, short-circuit current"), "protection.fuse_a": say("Fuse") });
const wordOf = (work: Work | undefined): string => { const name = fields()[work?.field ?? ""]; return work?.word && name ? `${name}: ${told(work.word)}` : work?.word ?? ""; };
const OTHER = "other";
/** Which circuit is looked at: a planned lamp, or other values as soon as one is typed. */
function useShown(): [shown: string, show: (which: string) => void, circuits: Circuit[]] {
  const known = useKnown(), circuits = known.plan?.value.circuits ?? [], ask = known.wiringAsk;
  const touched = [ask.fuse, ask.series, ask.parallel, ask.voc, ask.isc].some((v) => v !== undefined);
  const [which, choose] = useState<string>("");
  const wanted = which || (touched ? OTHER : "0");
  return [circuits[Number(wanted)] ? wanted : OTHER, choose, circuits];
}

export function WiringStage() {
  const known = useKnown(), work = useWork("wiring"), w = wiringOf(known), answer = known.wiring?.value;
  const [shown, choose, circuits] = useShown();
  useFirst("wiring");
  const set = (part: Partial<typeof known.wiringAsk>): void => { choose(OTHER); change({ wiringAsk: { ...known.wiringAsk, ...part } }); };
  const fresh = known.wiring?.asked === asked.wiring(known), circuit = circuits[Number(shown)];
  const stale = known.plan?.asked !== asked.plan(known);
  return (
    <>
      <h1>{say("What the meter should read")}</h1>
      <Caution text={say("Put the fuse at the pack's plus before any other wire, and connect the panel last. A pack can weld wires together: cover every pole that you do not work on, and take off rings.")} />
      {circuits.length ? <Choice label={say("Lamp")} value={shown} set={choose} of={[...circuits.map((c, i): [string, string] => [String(i), say("{0}, as planned", c.kind)]), [OTHER, say("other values")]]} /> : null}
      <form onSubmit={(e) => e.preventDefault()}>
        <div class="pair tight">
          <NumberField label={say("Groups in series")} value={w.series} low={1} high={14} whole set={(series) => set({ series })} />
          <NumberField label={say("Cells in a group")} value={w.parallel} low={1} high={200} whole set={(parallel) => set({ parallel })} />
          <NumberField label={say("Panel, open voltage")} unit="V" value={w.voc} low={1} high={60} set={(voc) => set({ voc })} />
          <NumberField label={say("Panel, short-circuit current")} unit="A" value={w.isc} low={0.01} high={20} set={(isc) => set({ isc })} />
          <NumberField label={say("Fuse")} unit="A" value={w.fuse} low={0} high={40} hint={known.plan ? say("The rest comes from the plan until you change it.") : undefined} set={(fuse) => set({ fuse })} />
        </div>
      </form>
      {circuit ? <div class={stale ? "stale" : ""}><Planned circuit={circuit} index={Number(shown)} /></div> : <>
        {work?.refused ? <section class="refusal" aria-label={say("Refused")}><h2>{say("Refused: this must not be built")}</h2><p role="alert"><strong>{told(work.word)}</strong></p></section> : <Say what={wordOf(work)} />}
        {answer && !work?.refused ? <section aria-label={say("Readings")} class={fresh || work?.busy ? "" : "stale"}><Answer answer={answer} size={say("{0} × {1} cells", w.series, w.parallel)} fuse={say("fuse {0} A", signed(String(w.fuse)))}
          note={say("Head, wires and switch as in the example lamp; panel currents between the label's values from common ratios. “May be”: the span that tolerances of parts allow.")} /></section> : null}
      </>}
      <p class="onward"><a class="next" href="#/mast">{say("Next: the mast")}</a></p>
    </>
  );
}
