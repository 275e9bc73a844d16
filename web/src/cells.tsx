// SPDX-License-Identifier: GPL-3.0-or-later
// The workshop's crates: cells drawn standing in their tray. Height of the fill: capacity; ring: resistance; a lid: scrap;
// a question mark: unsure. What a cell's record says stands beside it in words.
import { useEffect, useState } from "preact/hooks";
import { sentence } from "./api";
import { troubled, useBench, type Cell } from "./bench";
import { CellForm } from "./cellform";
import { Choice, Headline, Say } from "./form";
import { show } from "./numbers";
import { Readings } from "./readings";
import { alone, freshCells, freshCrates, send } from "./send";
import { Sending } from "./sending";
import { change } from "./state";
import { nextWords, plainly, seenWords, TakeIn, verdictWord } from "./takein";
import { say, sayMany } from "./words";

/** An address that somebody typed may be no address. */
function decoded(part: string): string {
  try { return decodeURIComponent(part); } catch { return part; }
}

/** A verdict from the voltage alone is no test, except that it is the end. */
const tested = (c: Cell): boolean => c.capacity_ah !== undefined || c.verdict === "scrap";

const inWords = (c: Cell): string => [
  `${c.code}: ${verdictWord(c.verdict)}`, c.capacity_ah === undefined ? "" : `${show(c.capacity_ah)}${c.capacity_sd_ah === undefined ? "" : ` ± ${show(c.capacity_sd_ah, 2)}`} Ah`,
  c.resistance_ohm === undefined ? "" : `${show(c.resistance_ohm * 1000, 2)} mΩ`, c.found_v === undefined ? "" : say("found at {0} V", show(c.found_v, 4)), seenWords(c.look), c.marking ?? "", c.pack ? say("in pack {0}", c.pack) : "", c.waits ? say("not sent yet") : "",
].filter(Boolean).join(", ");

function Standing({ cell, most, chosen, pick }: { cell: Cell; most: number; chosen: boolean; pick: () => void }) {
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

/** A tray of more cells than a slow phone draws at once is shown in steps. */
const TRAY_STEP = 400;
function Tray({ cells }: { cells: Cell[] }) {
  const [id, setId] = useState(""), [only, setOnly] = useState(""), [edit, setEdit] = useState(false), [most, setMost] = useState(TRAY_STEP);
  const chosen = cells.find((c) => c.id === id);
  const fullest = Math.max(0.1, ...cells.map((c) => c.capacity_ah ?? 0));
  const count = (verdict: string): number => cells.filter((c) => c.verdict === verdict).length;
  const shown = cells.filter((c) => !only || c.verdict === only);
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
        <Headline value={say("{0} of {1}", cells.filter(tested).length, cells.length)} of={say("cells tested")} />
        <Headline value={String(count("sound"))} of={say("sound")} />
        <Headline value={String(count("scrap"))} of={say("scrap: out of the workshop, poles taped")} />
      </div>
      <Choice label={say("Show")} value={only} set={setOnly} of={[["", say("all cells")], ...verdicts.map((v): [string, string] => [v, `${verdictWord(v)}: ${count(v)}`])]} />
      <ul class="tray" aria-label={say("Cells")}>{shown.slice(0, most).map((c) => <Standing key={c.id} cell={c} most={fullest} chosen={c.id === id} pick={() => { setId(c.id); setEdit(false); }} />)}</ul>
      {shown.length > most ? <div class="buttons"><button type="button" onClick={() => setMost(most + TRAY_STEP)}>{say("{0} of {1} are shown: show more", most, shown.length)}</button></div> : null}
      <div role="status">{chosen ? <p class="story">{inWords(chosen)}. {plainly(chosen.reasons)} {chosen.next_test ? say("Next test: {0}", nextWords(chosen.next_test)) : ""}</p> : <p class="hint">{say("Tap a cell to read its record. Fill: capacity. Ring: resistance, thick is bad. Crossed out: scrap. Question mark: one more test is needed.")}</p>}</div>
      {chosen ? edit ? <CellForm key={chosen.id} cell={chosen} done={() => setEdit(false)} /> : <div class="buttons"><a class="next" href={`#/cells/test/${encodeURIComponent(chosen.code)}`}>{say("Test it")}</a><button type="button" onClick={() => setEdit(true)}>{say("Correct it")}</button></div> : null}
      {sound.length ? <div class="buttons"><button type="button" class="main" onClick={take}>{say("Make packs from the {0} sound cells", sound.length)}</button><a class="button" href="#/pack">{say("Let the plan take cells of a crate")}</a></div> : null}
    </>
  );
}

/** The crate in hand stays in hand while other stages are looked at. */
const inHand = "lanewick.crate";

export function CellsStage() {
  const b = useBench(), [, , part = "", named = ""] = location.hash.split("/");
  const [picked, setPicked] = useState<string | null>(sessionStorage.getItem(inHand)), [word, setWord] = useState("");
  const crates = [...b.crates.values()].sort((x, y) => x.code.localeCompare(y.code)), crate = picked !== null && (picked === "" || b.crates.has(picked)) ? picked : crates[0]?.code ?? "";
  const pick = (code: string): void => { setPicked(code); sessionStorage.setItem(inHand, code); };
  const cells = [...b.cells.values()].filter((cell) => cell.crate === crate).sort((x, y) => x.code.localeCompare(y.code, undefined, { numeric: true }));
  const lost = (error: unknown): void => { if ((error as { kind?: string }).kind !== "away" && (error as { status?: number }).status !== 404) setWord(sentence(error)); };
  useEffect(() => { if (!alone()) { freshCrates().catch(lost); void send(); } }, []);
  useEffect(() => { if (!alone() && crate && b.crates.get(crate)?.id) freshCells(crate).catch(lost); }, [crate, b.crates.get(crate)?.id]);
  const done = cells.filter(tested).length;
  useEffect(() => { if (cells.length) change({ crate: { asked: "", value: { tested: done, all: cells.length } } }); }, [done, cells.length]);
  const waits = b.queue.length, ill = troubled().length;
  const parts: [string, string][] = [["", say("The tray")], ["in", say("Take in")], ["test", say("Test")], ["send", ill ? sayMany("{0} needs you", "{0} need you", ill) : waits ? say("{0} to send", waits) : say("Sent")]];
  return (
    <>
      <h1>{say("The crate of cells")}</h1>
      <nav class="parts" aria-label={say("Cells")}>{parts.map(([id, name]) => <a key={id} href={id ? `#/cells/${id}` : "#/cells"} aria-current={part === id ? "page" : undefined}>{name}</a>)}</nav>
      <Say what={word} />
      {part === "send" ? <Sending /> : part === "test" ? <Readings key={named} start={decoded(named)} /> : (
        <>
          {crates.length ? <Choice label={say("Crate")} value={crate} set={(code) => pick(code === "+" ? "" : code)} of={[...crates.map((c): [string, string] => [c.code, [c.code, c.name].filter(Boolean).join(", ")]), ...(part === "in" ? [["+", say("a new crate")] as [string, string]] : []), ...(crate === "" ? [["", say("a new crate")] as [string, string]] : [])]} /> : null}
          {part === "in" ? (b.ready ? <TakeIn key={crate} crate={crate} pick={pick} /> : null)
            : crates.length === 0 && b.ready ? <>
              <p>{say("No crate has been taken in yet.")} <a href="#/cells/in">{say("Begin with the first one.")}</a></p>
              <p>{say("One cell at hand?")} <a href="#/figures/cell_verdict">{say("Judge it from its readings.")}</a></p>
            </> : cells.length ? <section aria-label={say("Crate {0}", crate)}><Tray cells={cells} /></section> : <p><a href="#/cells/in">{say("Take in its first cell.")}</a></p>}
        </>
      )}
    </>
  );
}
