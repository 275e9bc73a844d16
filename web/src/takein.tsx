// SPDX-License-Identifier: GPL-3.0-or-later
// Taking in a crate: type the voltage, Enter, the next cell. Marking, class and shape go on from cell to cell. Everything is kept
// before the next cell is asked for; letters in the number field set what is seen.
import { useEffect, useRef, useState } from "preact/hooks";
import { bench, takeBack, useBench, write, type Cell } from "./bench";
import { CellForm } from "./cellform";
import { Caution, Choice, Say, TextField } from "./form";
import { show, typed } from "./numbers";
import { Pad } from "./pad";
import { sentence } from "./problem";
import { ScanButton } from "./scan";
import { head, labelFits, nextLabel, short, type Slip } from "./slips";
import { say, told } from "./words";

export const looks = (): [word: string, name: string, key: string][] => [
  ["dent", say("dent"), "d"], ["rust", say("rust"), "r"], ["swollen", say("swollen"), "s"], ["torn", say("torn wrap"), "t"], ["leak", say("leaking"), "l"], ["smell", say("smells"), "m"], ["hot", say("hot"), "h"],
];
export const classes = (): [string, string][] => [["unknown", say("not known")], ["4v2", say("4.2 V: LCO, NMC, NCA")], ["4v35", say("4.35 V")], ["lfp", say("LFP, 3.65 V")]];
export const labelRule = (): string => say("A label has 1 to 32 letters, digits and - _ . / and begins with a letter or digit.");
/** What is seen, as it is kept, in words. */
export const seenWords = (look: string | undefined): string => (look ?? "").split(" ").filter(Boolean).map((word) => looks().find(([one]) => one === word)?.[1] ?? word).join(", ");
export const ordered = (words: string[]): string => looks().map(([word]) => word).filter((word) => words.includes(word)).join(" ");

export function Looks({ chosen, toggle }: { chosen: string[]; toggle: (word: string) => void }) {
  return (
    <fieldset class="looks"><legend>{say("What is seen")}</legend>
      {looks().map(([word, name, key]) => <button key={word} type="button" aria-pressed={chosen.includes(word)} onClick={() => toggle(word)}>{name}<span class="quiet" aria-hidden="true"> {key}</span></button>)}
    </fieldset>
  );
}

export const verdictWord = (verdict: string): string => ({ sound: say("sound"), tired: say("tired"), unsure: say("unsure"), scrap: say("scrap"), untested: say("not tested") })[verdict] ?? verdict;

function voltsWrong(text: string): string | undefined {
  const volts = typed(text);
  if (text.trim() === "") return undefined;
  if (Number.isNaN(volts)) return say("“{0}” is not a number. Type digits, with a comma or a point.", text);
  if (volts < 0 || volts > 4.6) return say("{0} V cannot be one cell: it reads 0 to 4.6 V. Look again at the meter.", text);
  return undefined;
}

function NewCrate({ made }: { made: (code: string) => void }) {
  const [code, setCode] = useState("");
  const [name, setName] = useState("");
  const [wrong, setWrong] = useState("");
  const make = async (event: Event): Promise<void> => {
    event.preventDefault();
    const label = code.trim();
    if (!labelFits(label)) { setWrong(labelRule()); return; }
    await write([short({ ...head(), kind: "crate" as const, code: label, name: name.trim() })]);
    made(label);
  };
  return (
    <form onSubmit={(e) => void make(e)}>
      <h2>{say("A new crate")}</h2>
      <TextField label={say("Label of the crate")} value={code} set={setCode} wrong={wrong || undefined} hint={say("Short, as it is written on the crate: NS1")} />
      <TextField label={say("Its name")} value={name} set={setName} hint={say("As in “laptop packs from the market”; may be left out")} />
      <button class="main">{say("Begin this crate")}</button>
    </form>
  );
}

/** Reasons without their sources, which stand in the record. */
export const plainly = (reasons: string | undefined): string => told((reasons ?? "").replace(/ \((?:[^()]|\([^()]*\))*\)(;|$)/g, "").trim());

/** What to do next, without the key of the test before it. */
export const nextWords = (next: string): string => told(next.replace(/^[a-z]+: /, ""));

export function Told({ cell }: { cell: Cell }) {
  return (
    <div class={cell.verdict === "scrap" ? "alarm" : "story"}>
      <strong>{cell.code}</strong>{cell.found_v === undefined ? "" : ` ${show(cell.found_v, 4)}\u2009V`}: {verdictWord(cell.verdict)}. {plainly(cell.reasons)}
      {cell.verdict === "scrap" ? <> <strong>{say("Tape both ends, into the sand box, out of the house. Never charge it.")}</strong></> : null}
    </div>
  );
}

/** One after another: what is typed or taken back while the one before is still being kept waits for its turn. */
function useTurns(): (work: () => Promise<void>) => void {
  const end = useRef(Promise.resolve());
  return (work) => { end.current = end.current.then(work); };
}
const newestOf = (crate: string): Cell | undefined => [...bench.cells.values()].reduce<Cell | undefined>((most, cell) => (cell.crate === crate && cell.id > (most?.id ?? "") ? cell : most), undefined);
const named = (code: string): boolean => [...bench.cells.values()].some((cell) => cell.code.toLowerCase() === code.toLowerCase());

export function TakeIn({ crate, pick }: { crate: string; pick: (code: string) => void }) {
  const b = useBench(), before = newestOf(crate), turn = useTurns();
  const [text, setText] = useState(""), [wrong, setWrong] = useState(""), [label, setLabel] = useState<string | null>(null), [seen, setSeen] = useState<string[]>([]);
  const [common, setCommon] = useState({ marking: "", voltage_class: "unknown", shape: "18650" });
  const given = useRef(""), steps = useRef<Slip[]>([]), [done, setDone] = useState<Slip[]>([]), [edit, setEdit] = useState("");
  useEffect(() => { if (before) setCommon({ marking: before.marking ?? "", voltage_class: before.voltage_class ?? "unknown", shape: before.shape ?? "" }); setLabel(null); }, [crate, b.ready]);
  if (!crate) return <NewCrate made={pick} />;
  const nextOf = (): string => nextLabel(given.current || (newestOf(crate)?.code ?? `${crate}-0`)), next = label ?? nextOf();
  const toggle = (word: string): void => setSeen((now) => (now.includes(word) ? now.filter((one) => one !== word) : [...now, word]));

  /* The field is free for the next cell at once, which has the label after this one; what could not be kept comes back. */
  const store = (read: () => { volts: string; look: string }): void => {
    const code = (label ?? nextOf()).trim(), chosen = seen;
    if (!labelFits(code)) { setWrong(labelRule()); return; }
    if (named(code)) { setWrong(say("There is a cell {0} already: another label, or take that cell in hand from the tray.", code)); return; }
    given.current = code;
    setText(""); setSeen([]); setLabel(null); setWrong("");
    turn(async () => {
      const { volts, look } = read();
      try {
        const slip: Slip = short({ ...head(), kind: "cell" as const, crate, code, ...common, look, ...(volts.trim() ? { found_v: typed(volts) } : {}) });
        await write([slip]);
        setDone(steps.current = [...steps.current, slip]);
      } catch (error) { setWrong(sentence(error)); setText(volts); setLabel(code); setSeen(chosen); }
      if (given.current === code) given.current = "";
    });
  };
  const enter = (): void => {
    const problem = text.trim() === "" && !seen.length ? say("Type the voltage; 0 for a dead cell. A cell that is not measured says what is seen.") : voltsWrong(text);
    if (problem) setWrong(problem);
    else store(() => ({ volts: text, look: ordered(seen) }));
  };
  const repeat = (): void => store(() => {
    const last = newestOf(crate);
    return { volts: last?.found_v === undefined ? "" : String(last.found_v), look: last?.look ?? "" };
  });
  const undo = (): void => turn(async () => {
    const slip = steps.current[steps.current.length - 1];
    if (!slip) return;
    try { await takeBack(slip); } catch (error) { setWrong(sentence(error)); return; }
    setDone(steps.current = steps.current.slice(0, -1));
  });
  const keys = (key: string): boolean => {
    const look = looks().find(([, , letter]) => letter === key.toLowerCase());
    if (look) toggle(look[0]);
    else if (key === "u") undo();
    else if (key === "=" && before) repeat();
    else return false;
    return true;
  };
  const last = done.map((slip) => b.cells.get(slip.id)).filter((cell): cell is Cell => cell !== undefined).slice(-6).reverse();
  const care = <Caution text={say("Gloves and eye protection; not alone; sand within reach. A cell that is hot, swollen or leaking goes outside at once. Local rules on batteries come first.")} />;
  return (
    <section aria-label={say("Taking in cells")}>
      {done.length ? null : care}
      <div class="pair">
        <TextField label={say("Label of this cell")} value={next} set={setLabel} />
        <ScanButton label={say("Scan its label")} found={(code) => { setLabel(code); return ""; }} />
      </div>
      <Pad label={say("Voltage as found")} unit="V" text={text} set={(now) => { setText(now); setWrong(""); }} wrong={wrong || undefined} enter={say("Keep, next cell")} done={enter} keys={keys} />
      <Looks chosen={seen} toggle={toggle} />
      <div class="buttons">
        <button type="button" onClick={undo} disabled={!done.length}>{say("Undo")} <span class="quiet" aria-hidden="true">u</span></button>
        <button type="button" onClick={repeat} disabled={!before}>{say("The same again")} <span class="quiet" aria-hidden="true">=</span></button>
      </div>
      <div role="status" class="recent">{last[0] ? <Told cell={last[0]} /> : null}</div>
      {last.length ? <ul class="plainlist" aria-label={say("Taken in just now")}>{last.map((cell) => (
        <li key={cell.id}><button type="button" class="small" aria-expanded={edit === cell.id} onClick={() => setEdit(edit === cell.id ? "" : cell.id)}>{cell.code} · {cell.found_v === undefined ? "–" : `${show(cell.found_v, 4)} V`} · {verdictWord(cell.verdict)}{cell.look ? ` · ${seenWords(cell.look)}` : ""}</button>
          {edit === cell.id ? <CellForm cell={cell} done={() => setEdit("")} /> : null}</li>
      ))}</ul> : null}
      {done.length ? care : null}
      <details open={!before}><summary>{say("What holds for the cells to come")}</summary>
        <TextField label={say("Marking, as printed on the cell")} value={common.marking} set={(marking) => setCommon({ ...common, marking })} />
        <div class="pair">
          <Choice label={say("Voltage class")} value={common.voltage_class} of={classes()} set={(voltage_class) => setCommon({ ...common, voltage_class })} hint={say("Only as the marking tells; when in doubt: not known")} />
          <TextField label={say("Shape")} value={common.shape} set={(shape) => setCommon({ ...common, shape })} />
        </div>
      </details>
      {bench.lasting ? null : <Say what={say("This browser keeps nothing: hand the readings over before you close the page.")} />}
    </section>
  );
}
