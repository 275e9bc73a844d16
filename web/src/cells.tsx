// SPDX-License-Identifier: GPL-3.0-or-later
// The workshop's crates: cells drawn standing in their tray. Height of the fill: capacity; ring: resistance; a lid: scrap;
// a question mark: unsure. What a cell's record says stands beside it in words.
import { useEffect, useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { Choice, Headline, Say } from "./form";
import { show } from "./numbers";
import { change } from "./state";

interface Crate { code: string; name?: string; origin?: string; received?: string }
export interface StoredCell {
  code: string; verdict: string; reasons?: string; next_test?: string; marking?: string; voltage_class?: string; pack?: string;
  capacity_ah?: number; capacity_sd_ah?: number; resistance_ohm?: number; found_v?: number;
}
const PAGE_MOST = 40;
/** A verdict from the voltage alone is no test, except that it is the end. */
const tested = (c: StoredCell): boolean => c.capacity_ah !== undefined || c.verdict === "scrap";

async function cellsOf(crate: string): Promise<StoredCell[]> {
  const all: StoredCell[] = [];
  let after: string | null = "";
  for (let page = 0; after !== null && page < PAGE_MOST; page++) {
    const part: { cells: StoredCell[]; after: string | null } = await ask("GET", `/crates/${encodeURIComponent(crate)}/cells${after ? `?after=${encodeURIComponent(after)}` : ""}`);
    all.push(...part.cells);
    after = part.after;
  }
  return all;
}

const inWords = (c: StoredCell): string => [
  `${c.code}: ${c.verdict}`, c.capacity_ah === undefined ? "" : `${show(c.capacity_ah)}${c.capacity_sd_ah === undefined ? "" : ` ± ${show(c.capacity_sd_ah, 2)}`} Ah`,
  c.resistance_ohm === undefined ? "" : `${show(c.resistance_ohm * 1000, 2)} mΩ`, c.found_v === undefined ? "" : `found at ${show(c.found_v)} V`, c.marking ?? "", c.pack ? `in pack ${c.pack}` : "",
].filter(Boolean).join(", ");

function Standing({ cell, most, chosen, pick }: { cell: StoredCell; most: number; chosen: boolean; pick: () => void }) {
  const full = cell.capacity_ah === undefined ? 0 : (cell.capacity_ah / most) * 44;
  const ring = cell.resistance_ohm === undefined ? 0 : Math.min(6, 1 + cell.resistance_ohm * 30);
  return (
    <li><button type="button" class="cell" aria-pressed={chosen} aria-label={inWords(cell)} onClick={pick}>
      <svg viewBox="0 0 40 64" aria-hidden="true">
        {full ? <rect x="8" y={58 - full} width="24" height={full} class="bar" /> : null}
        <rect x="8" y="12" width="24" height="46" rx="3" class="can" /><path d="M15 12V8h10v4" class="can" />
        {ring ? <circle cx="20" cy="35" r="7" class="ring" stroke-width={ring} /> : null}
        {cell.verdict === "scrap" ? <path d="M4 12h32M6 58 34 14" class="lid" /> : null}
        {cell.verdict === "unsure" || cell.verdict === "untested" ? <text x="20" y="40" class="ask">?</text> : null}
      </svg>
      <span>{cell.code.replace(/^.*-/, "")}</span>
    </button></li>
  );
}

function Tray({ cells }: { cells: StoredCell[] }) {
  const [code, setCode] = useState("");
  const [only, setOnly] = useState("");
  const chosen = cells.find((c) => c.code === code);
  const most = Math.max(0.1, ...cells.map((c) => c.capacity_ah ?? 0));
  const count = (verdict: string): number => cells.filter((c) => c.verdict === verdict).length;
  const verdicts = ["sound", "tired", "unsure", "untested", "scrap"].filter((v) => count(v) > 0);
  const sound = cells.filter((c) => c.verdict === "sound" && c.capacity_ah !== undefined && !c.pack);
  const take = (): void => {
    const lines = sound.map((c) => [c.code, c.capacity_ah, c.resistance_ohm === undefined ? "" : show(c.resistance_ohm * 1000), c.voltage_class ?? ""].join("; "));
    change({ cells: ["code; capacity_ah; resistance_mohm; voltage_class", ...lines].join("\n") });
    location.hash = "#/pack";
  };
  return (
    <>
      <div class="row">
        <Headline value={`${cells.filter(tested).length} of ${cells.length}`} of="cells tested" />
        <Headline value={String(count("sound"))} of="sound" />
        <Headline value={String(count("scrap"))} of="scrap: out of the workshop, poles taped" />
      </div>
      <Choice label="Show" value={only} set={setOnly} of={[["", "all cells"], ...verdicts.map((v): [string, string] => [v, `${v}: ${count(v)}`])]} />
      <ul class="tray" aria-label="Cells">{cells.filter((c) => !only || c.verdict === only).slice(0, 400).map((c) => <Standing key={c.code} cell={c} most={most} chosen={c.code === code} pick={() => setCode(c.code)} />)}</ul>
      <div role="status">{chosen ? <p class="story">{inWords(chosen)}.{chosen.reasons ? ` ${chosen.reasons}.` : ""}{chosen.next_test ? ` Next test: ${chosen.next_test}.` : ""}</p> : <p class="hint">Tap a cell to read its record. Fill: capacity. Ring: resistance, thick is bad. Crossed out: scrap. Question mark: one more test is needed.</p>}</div>
      {sound.length ? <button type="button" class="main" onClick={take}>Make packs from the {sound.length} sound cells</button> : null}
    </>
  );
}

export function CellsStage() {
  const [crates, setCrates] = useState<Crate[] | null>(null);
  const [crate, setCrate] = useState("");
  const [cells, setCells] = useState<StoredCell[] | null>(null);
  const [word, setWord] = useState("");
  const lost = (error: unknown): void => setWord(sentence(error));
  useEffect(() => {
    ask<{ crates: Crate[] }>("GET", "/crates").then(({ crates: found }) => { setCrates(found); setCrate(found[0]?.code ?? ""); },
      (error: unknown) => { if (error instanceof Problem && error.status === 404) setCrates([]); else lost(error); });
  }, []);
  useEffect(() => {
    if (!crate) return;
    setCells(null);
    cellsOf(crate).then((found) => {
      setCells(found);
      change({ crate: { asked: "", value: { tested: found.filter(tested).length, all: found.length } } });
    }, lost);
  }, [crate]);
  return (
    <>
      <h1>The crate of cells</h1>
      <Say what={word} />
      {crates?.length === 0 ? <>
        <p>No crate has been taken in yet. At the laptop, <code>lanewick crate</code> leads through the tests and keeps every reading; the cells then stand here.</p>
        <p>One cell at hand? <a href="#/figures/cell_verdict">Judge it from its readings.</a></p>
      </> : null}
      {crates && crates.length > 1 ? <Choice label="Crate" value={crate} set={setCrate} of={crates.map((c) => [c.code, [c.code, c.name].filter(Boolean).join(", ")])} /> : null}
      {cells ? <section aria-label={`Crate ${crate}`}><Tray cells={cells} /></section> : null}
    </>
  );
}
