// SPDX-License-Identifier: GPL-3.0-or-later
// Where a plan's cells come from: counted on the shelf, or the very cells of a crate as they were tested one by one.
import { useEffect, useState } from "preact/hooks";
import { useBench, type Cell, type Crate } from "./bench";
import { NumberField, Say } from "./form";
import { compute } from "./live";
import { sentence } from "./problem";
import { alone, freshCells, freshCrates } from "./send";
import type { Brief, Part } from "./shapes";
import { change, useKnown } from "./state";
import { say, sayMany } from "./words";

/** Cells of a crate that may go into a pack, of one voltage class: classes are never mixed. */
interface Lot { crate: Crate; voltage_class: string; cells: Cell[] }

const usable = (cell: Cell): boolean => (cell.verdict === "sound" || cell.verdict === "tired") && cell.capacity_ah !== undefined && !cell.pack;

function lotsOf(crates: Crate[], cells: Cell[]): Lot[] {
  return crates.flatMap((crate) => ["4v2", "4v35", "lfp"].map((voltage_class): Lot => ({ crate, voltage_class, cells: cells.filter((c) => c.crate === crate.code && c.voltage_class === voltage_class && usable(c)) }))
    .filter((lot) => lot.cells.length));
}
export const cratesOf = (brief: Brief | null): Part[] => (brief?.shelf.cells ?? []).filter((part) => typeof part["crate"] === "string");
const isOf = (part: Part, lot: Lot): boolean => part["crate"] === lot.crate.code && part.class === lot.voltage_class;

export function CrateCells() {
  const known = useKnown(), b = useBench(), brief = known.brief;
  const taken = cratesOf(brief), lots = lotsOf([...b.crates.values()], [...b.cells.values()]);
  const [picked, setPicked] = useState<string[] | null>(null), [price, setPrice] = useState<number | undefined>(taken[0]?.price ?? brief?.shelf.cells[0]?.price ?? 0), [word, setWord] = useState("");
  useEffect(() => {
    const look = async (): Promise<void> => {
      await freshCrates();
      for (const crate of b.crates.values()) if (crate.id) await freshCells(crate.code);
    };
    look().catch((error: unknown) => { if (![404, 0].includes((error as { status?: number }).status ?? 0)) setWord(sentence(error)); });
  }, []);
  if (alone() || !brief || !lots.length) return null;
  const id = (lot: Lot): string => `${lot.crate.code} ${lot.voltage_class}`;
  const chosen = picked ?? lots.filter((lot) => taken.some((part) => isOf(part, lot))).map(id);
  const toggle = (name: string): void => setPicked(chosen.includes(name) ? chosen.filter((one) => one !== name) : [...chosen, name]);
  const put = (cells: Part[], counted: Part[] | undefined): void => {
    change({ brief: { ...brief, shelf: { ...brief.shelf, cells } }, pack: { ...known.pack, counted } });
    setPicked(null);
    compute("plan");
  };
  const take = (): void => put(
    lots.filter((lot) => chosen.includes(id(lot))).map((lot) => ({ name: say("cells of crate {0}", lot.crate.code), class: lot.voltage_class, crate: lot.crate.code, price: price ?? 0 })),
    taken.length ? known.pack.counted : brief.shelf.cells);
  return (
    <fieldset><legend>{say("Which cells the plan takes")}</legend>
      <p class="hint">{taken.length ? say("The plan names the cell for each place. Cells that are tested later count when you plan again.") : say("The plan counts cells by number so far. It can also take the tested cells of your crates and name the cell for each place.")}</p>
      {lots.map((lot) => (
        <label key={id(lot)} class="tick"><input type="checkbox" checked={chosen.includes(id(lot))} onChange={() => toggle(id(lot))} /><span>{[lot.crate.code, lot.crate.name].filter(Boolean).join(", ")}<span class="quiet"> {sayMany("{0} free cell of class {1}", "{0} free cells of class {1}", lot.cells.length, lot.voltage_class)}</span></span></label>
      ))}
      <NumberField label={say("Price of one cell")} unit={brief.shelf.currency?.text ?? say("each")} value={price} low={0} set={setPrice} />
      <div class="buttons">
        <button type="button" class={taken.length ? "" : "main"} disabled={!chosen.length} onClick={take}>{say("Plan with these cells")}</button>
        {taken.length && known.pack.counted ? <button type="button" onClick={() => put(known.pack.counted ?? [], undefined)}>{say("Count cells by number again")}</button> : null}
      </div>
      <Say what={word} />
    </fieldset>
  );
}
