// SPDX-License-Identifier: GPL-3.0-or-later
// One cell in hand, to correct what was written about it. What is sent names what was seen, so that two people who write about one
// cell do not overwrite each other.
import { useState } from "preact/hooks";
import { changeOf, write, type Cell } from "./bench";
import { Choice, Say, TextField } from "./form";
import { plain, typed } from "./numbers";
import { sentence } from "./problem";
import { labelFits } from "./slips";
import { classes, labelRule, Looks, ordered } from "./takein";
import { say } from "./words";

export function CellForm({ cell, done }: { cell: Cell; done: () => void }) {
  const [code, setCode] = useState(cell.code), [volts, setVolts] = useState(cell.found_v === undefined ? "" : plain(cell.found_v));
  const [marking, setMarking] = useState(cell.marking ?? ""), [kind, setKind] = useState(cell.voltage_class ?? "unknown"), [rated, setRated] = useState(cell.rated_ah === undefined ? "" : plain(cell.rated_ah));
  const [seen, setSeen] = useState((cell.look ?? "").split(" ").filter(Boolean)), [note, setNote] = useState(cell.note ?? ""), [word, setWord] = useState("");
  const number = (text: string): number | null => (text.trim() === "" ? null : typed(text));
  const store = async (event: Event): Promise<void> => {
    event.preventDefault();
    const found_v = number(volts), rated_ah = number(rated);
    if (!labelFits(code.trim())) { setWord(labelRule()); return; }
    if (Number.isNaN(found_v) || (found_v !== null && (found_v < 0 || found_v > 4.6))) { setWord(say("The voltage of one cell reads 0 to 4.6 V.")); return; }
    if (Number.isNaN(rated_ah) || (rated_ah !== null && (rated_ah < 0.05 || rated_ah > 400))) { setWord(say("The capacity when new must be a number from 0.05 to 400 Ah.")); return; }
    const slip = changeOf(cell, { code: code.trim(), found_v, marking, voltage_class: kind, rated_ah, look: ordered(seen), note });
    try {
      if (slip) await write([slip]);
      done();
    } catch (error) { setWord(sentence(error)); }
  };
  return (
    <form class="inhand" aria-label={say("Cell {0}", cell.code)} onSubmit={(e) => void store(e)}>
      <div class="pair">
        <TextField label={say("Label")} value={code} set={setCode} />
        <TextField label={say("Voltage as found")} unit="V" value={volts} set={setVolts} mode="decimal" />
        <TextField label={say("Marking, as printed on the cell")} value={marking} set={setMarking} />
        <Choice label={say("Voltage class")} value={kind} set={setKind} of={classes()} />
        <TextField label={say("Capacity when new")} unit="Ah" value={rated} set={setRated} mode="decimal" hint={say("Where the maker's sheet tells it")} />
        <TextField label={say("Note")} value={note} set={setNote} />
      </div>
      <Looks chosen={seen} toggle={(one) => setSeen(seen.includes(one) ? seen.filter((other) => other !== one) : [...seen, one])} />
      <div class="buttons"><button class="main">{say("Keep the correction")}</button><button type="button" onClick={done}>{say("Leave it as it was")}</button></div>
      <Say what={word} />
    </form>
  );
}
