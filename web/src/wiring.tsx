// SPDX-License-Identifier: GPL-3.0-or-later
// What each test point of the lamp should read, to check the wiring before it goes up the mast.
import { useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Caution, Choice, NumberField, Say } from "./form";
import { change, useKnown } from "./state";

interface Reading { expected: number; low: number; high: number }
export interface Readings { refused?: boolean; findings?: { text?: string; message?: string }[]; conditions: Record<string, { text: string; points: Record<string, Reading> }> }

const points: Record<string, string> = {
  panel_v: "Panel, voltage", panel_a: "Panel, current", charger_v: "Charger input, voltage", charge_a: "Charging current", pack_v: "Pack, voltage", pack_a: "Pack, current out",
  bus_v: "Behind the protection board, voltage", node_v: "Dusk switch, divider", reference_v: "Dusk switch, reference", gate_v: "Dusk switch, gate", switch_v: "Across the switch", head_v: "Head, voltage", lamp_a: "Head, current", string_a: "One LED string, current",
};
const unit = (name: string): string => (name.endsWith("_a") ? "A" : "V");
/** As many decimals as a meter of a workshop shows. */
const read = (value: number, name: string): string => value.toFixed(unit(name) === "A" ? 3 : 2).replace(/^-(0\.0+)$/, "$1");

export function WiringStage() {
  const known = useKnown();
  const lamp = known.plan?.value.lamps[0];
  const panel = known.plan?.value.brief.shelf.panels.find((p) => p.name === lamp?.size.panel);
  const [series, setSeries] = useState(lamp?.size.series ?? 3);
  const [parallel, setParallel] = useState(lamp?.size.parallel ?? 4);
  const [voc, setVoc] = useState(Number(panel?.["voc_v"] ?? 21.6));
  const [isc, setIsc] = useState(Number(panel?.["isc_a"] ?? 0.63) * (lamp?.size.panels ?? 1));
  const [fuse, setFuse] = useState(3.15);
  const [when, setWhen] = useState("dusk");
  const [word, setWord] = useState("");
  const question = JSON.stringify([series, parallel, voc, isc, fuse]);
  const go = async (event: Event): Promise<void> => {
    event.preventDefault();
    setWord("");
    try {
      const value = await ask<Readings>("POST", "/circuit", {
        format: "lanewick.circuit/1", pack: { series, parallel }, protection: { fuse_a: fuse },
        panel: { voc_v: voc, isc_a: isc, vmp_v: Number((voc * 0.813).toFixed(2)), imp_a: Number((isc * 0.91).toFixed(3)) },
      });
      change({ wiring: { asked: question, value } });
    } catch (error) { setWord(sentence(error)); }
  };
  const answer = known.wiring?.value;
  const condition = answer?.conditions[when];
  return (
    <>
      <h1>What the meter should read</h1>
      <Caution text="Connect the fuse last. A pack can weld wires together: cover every pole that you do not work on, and take off rings." />
      <form onSubmit={(e) => void go(e)}>
        <div class="pair">
          <NumberField label="Groups in series" value={series} low={1} high={14} whole set={(v) => setSeries(v ?? series)} />
          <NumberField label="Cells in a group" value={parallel} low={1} high={200} whole set={(v) => setParallel(v ?? parallel)} />
          <NumberField label="Panel, open voltage" unit="V" value={voc} low={0.4} high={60} set={(v) => setVoc(v ?? voc)} />
          <NumberField label="Panel, short-circuit current" unit="A" value={isc} low={0.01} high={20} set={(v) => setIsc(v ?? isc)} />
          <NumberField label="Fuse" unit="A" value={fuse} low={0} high={40} set={(v) => setFuse(v ?? fuse)} />
        </div>
        <button class="main">Compute the readings</button>
      </form>
      <Say what={word} />
      {answer ? (
        <section aria-label="Readings" class={known.wiring?.asked === question ? "" : "stale"}>
          {answer.refused ? <p class="alarm">Refused: this lamp must not be built like this.</p> : null}
          {answer.findings?.map((f) => <p key={f.text ?? f.message} class="note">{f.text ?? f.message}</p>)}
          <Choice label="When you measure" value={when} set={setWhen} of={Object.entries(answer.conditions).map(([id, c]) => [id, c.text])} />
          {condition ? <table><thead><tr><th>Test point</th><th>Reads</th><th>May be</th></tr></thead>
            <tbody>{Object.entries(condition.points).map(([name, p]) => <tr key={name}><th scope="row">{points[name] ?? name}</th><td>{read(p.expected, name)} {unit(name)}</td><td>{read(p.low, name)} to {read(p.high, name)}</td></tr>)}</tbody></table> : null}
          <p class="quiet">Head, wires and switch as in the example lamp; panel currents between the label's values from common ratios. “May be”: the span that tolerances of parts allow.</p>
        </section>
      ) : null}
    </>
  );
}
