// SPDX-License-Identifier: GPL-3.0-or-later
// What was written down here and is not at the laptop yet: what waits, what waits for a person with both versions, and the ways
// without a connection: a file or a run of codes.
import { useState } from "preact/hooks";
import { bench, heldUp, throwDamaged, troubled, useBench, write, type Entry } from "./bench";
import { Caution, Say, TextField } from "./form";
import { show } from "./numbers";
import { sentence } from "./problem";
import { clockTime } from "./run";
import { Scan } from "./scan";
import { alone, apart, insist, leave, relabel, send } from "./send";
import { bundle, bundles, fits, labelFits, unbundle, type Slip } from "./slips";
import { say, sayMany } from "./words";

const codeOfCell = (id: string): string => bench.cells.get(id)?.code ?? bench.base.get(id)?.code ?? "?";
function told(slip: Slip): string {
  if (slip.kind === "crate") return say("new crate {0}", slip.code);
  if (slip.kind === "cell") return `${slip.code}${slip.found_v === undefined || slip.found_v === null ? "" : ` ${slip.found_v} V`}`;
  if (slip.kind === "change") return say("{0}: corrected {1}", codeOfCell(slip.cell), Object.keys(slip.set).join(", "));
  if (slip.kind === "test") return say("{0}: test", codeOfCell(slip.cell)) + ` (${slip.method})`;
  if (slip.kind === "run") return say("{0}: discharge begun", codeOfCell(slip.cell));
  if (slip.kind === "reading") return slip.volts === undefined ? say("disconnected at {0}", clockTime(Date.parse(slip.at))) : say("reading of {0}: {1} V", clockTime(Date.parse(slip.at)), show(slip.volts, 4));
  return say("taken back");
}

const words: Record<string, () => string> = {
  code: () => say("Label"), marking: () => say("Marking"), voltage_class: () => say("Voltage class"), shape: () => say("Shape"), origin: () => say("Origin"), look: () => say("Look"), note: () => say("Note"),
  found_v: () => say("Voltage as found"), rated_ah: () => say("Capacity when new"), name: () => say("Name"), crate: () => say("Crate"),
};

function Versions({ entry }: { entry: Entry }) {
  const stored = entry.trouble?.stored ?? {}, mine = entry.trouble?.sent ?? {};
  const rows = Object.keys(words).filter((key) => (stored[key] ?? "") !== (mine[key] ?? ""));
  if (!entry.trouble?.stored) return null;
  return (
    <table><thead><tr><th scope="col">{say("What")}</th><th scope="col">{say("At the laptop")}</th><th scope="col">{say("Written here")}</th></tr></thead>
      <tbody>{rows.map((key) => <tr key={key}><th scope="row">{words[key]?.()}</th><td>{String(stored[key] ?? "–")}</td><td>{String(mine[key] ?? "–")}</td></tr>)}</tbody></table>
  );
}

function TroubleView({ entry }: { entry: Entry }) {
  const { slip, trouble } = entry, [label, setLabel] = useState(slip.kind === "cell" ? slip.code : "");
  if (!trouble) return null;
  const conflict = trouble.stored !== undefined;
  return (
    <li class="refusal" aria-label={told(slip)}>
      <h3>{told(slip)}</h3>
      <p>{trouble.detail}</p>
      <Versions entry={entry} />
      {conflict && slip.kind === "cell" ? <TextField label={say("It is another cell: its new label")} value={label} set={setLabel} /> : null}
      <div class="buttons">
        {conflict && slip.kind === "change" ? <button type="button" onClick={() => void insist(entry)}>{say("What I wrote counts")}</button> : null}
        {slip.kind === "test" && slip.run ? <button type="button" onClick={() => void apart(entry)}>{say("Keep it as a test of its own")}</button> : null}
        {slip.kind === "cell" ? <button type="button" disabled={!labelFits(label.trim()) || label.trim() === slip.code} onClick={() => void relabel(entry, label.trim())}>{say("Keep it under the new label")}</button> : null}
        <button type="button" onClick={() => { if (conflict || confirm(say("Throw this away? It will not be kept anywhere."))) void leave(entry); }}>{conflict ? (slip.kind === "cell" ? say("It is the same cell: keep what is at the laptop") : say("Keep what is at the laptop")) : say("Throw it away")}</button>
      </div>
    </li>
  );
}

interface Codes { path: string; size: number }
function Run({ slips, done }: { slips: Slip[]; done: () => void }) {
  const [at, setAt] = useState(0), [long, setLong] = useState(0), [codes, setCodes] = useState<Codes[] | null>(null);
  if (!codes) { void import("./codes").then(({ codeOf, CODE_BYTES }) => {
    const fit = slips.filter((slip) => fits(slip, CODE_BYTES));
    setCodes(bundles(fit, CODE_BYTES).map(codeOf));
    setLong(slips.length - fit.length);
  }); return null; }
  const code = codes[at], left = long ? <Say what={sayMany("{0} long test does not fit into a code: hand it over as a file.", "{0} long tests do not fit into a code: hand them over as a file.", long)} /> : null;
  if (!code) return <>{left}<div class="buttons"><button type="button" onClick={done}>{say("Close")}</button></div></>;
  return (
    <section class="codes" aria-label={say("Run of codes")}>
      <svg viewBox={`-4 -4 ${code.size + 8} ${code.size + 8}`} role="img" aria-label={say("Code {0} of {1}", at + 1, codes.length)} shape-rendering="crispEdges"><path class="paper" d={`M-4-4h${code.size + 8}v${code.size + 8}h-${code.size + 8}z`} /><path class="ink" d={code.path} /></svg>
      {left}
      <p role="status">{say("Code {0} of {1}", at + 1, codes.length)}</p>
      <div class="buttons">
        <button type="button" disabled={at === 0} onClick={() => setAt(at - 1)}>{say("Back")}</button>
        <button type="button" class="main" disabled={at + 1 >= codes.length} onClick={() => setAt(at + 1)}>{say("Next code")}</button>
        <button type="button" onClick={done}>{say("Close")}</button>
      </div>
    </section>
  );
}

/** Kept by an older page, from a file that was damaged on its way. */
function Damaged() {
  const [wrong, setWrong] = useState(""), count = bench.damaged.length;
  if (!count) return null;
  const away = (): void => { if (confirm(say("Throw this away? It will not be kept anywhere."))) throwDamaged().catch((error: unknown) => setWrong(sentence(error))); };
  return (
    <section class="refusal">
      <h3>{sayMany("{0} slip is damaged and cannot be sent.", "{0} slips are damaged and cannot be sent.", count)}</h3>
      <details><summary>{say("What is left of it")}</summary><pre class="scroll" tabIndex={0}>{bench.damaged.map(({ slip }) => JSON.stringify(slip)).join("\n")}</pre></details>
      <div class="buttons"><button type="button" onClick={away}>{say("Throw it away")}</button></div>
      <Say what={wrong} />
    </section>
  );
}

function Hand({ slips }: { slips: Slip[] }) {
  const [codes, setCodes] = useState(false);
  const file = (): void => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([bundle(slips)], { type: "application/json" }));
    link.download = `lanewick-slips-${new Date().toISOString().slice(0, 16).replace(/[:T]/g, "-")}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  };
  if (codes) return <Run slips={slips} done={() => setCodes(false)} />;
  return (
    <>
      <h2>{say("Without a connection")}</h2>
      <p>{say("Hand the readings over as a file, or show them as a run of codes to another phone or to the laptop's camera. They stay here too; nothing counts twice.")}</p>
      <div class="buttons"><button type="button" onClick={file}>{say("As a file")}</button><button type="button" onClick={() => setCodes(true)}>{say("As a run of codes")}</button></div>
    </>
  );
}

function Take() {
  const [open, setOpen] = useState(false), [word, setWord] = useState(""), [wrong, setWrong] = useState("");
  const take = async (text: string): Promise<string> => {
    const found = unbundle(text);
    if (!found) return "";
    const fresh = found.slips.filter((slip) => !bench.queue.some((entry) => entry.slip.id === slip.id));
    await write(fresh);
    const damaged = found.damaged ? ` ${sayMany("{0} slip is damaged and was left out: write it down anew.", "{0} slips are damaged and were left out: write them down anew.", found.damaged)}` : "";
    const said = sayMany("{0} slip taken over.", "{0} slips taken over.", fresh.length) + damaged;
    setWord(said);
    return said;
  };
  const read = async (files: FileList | null): Promise<void> => {
    setWrong("");
    try {
      for (const file of files ?? []) if ((await take(await file.text())) === "") setWrong(say("{0} holds no readings of this page.", file.name));
    } catch (error) { setWrong(sentence(error)); }
  };
  return (
    <>
      <h2>{say("From another phone")}</h2>
      <div class="buttons">
        <label class="button">{say("Take over a file")}<input type="file" accept=".json,application/json" onChange={(e) => void read(e.currentTarget.files)} /></label>
        {window.isSecureContext && "mediaDevices" in navigator && !open ? <button type="button" onClick={() => setOpen(true)}>{say("Read codes by the camera")}</button> : null}
      </div>
      {open ? <Scan found={async (text) => (await take(text)) || say("This is no code of readings.")} close={() => setOpen(false)} /> : null}
      <Say what={wrong} /><Say kind="note" what={word} />
    </>
  );
}

export const sendingWord = (): string => ({
  "": "", sending: say("Sending."), away: say("The laptop is out of reach; they are kept here and go by themselves when it is back."), unpaired: say("The laptop does not know this phone any more: pair it again. Everything is kept here."), later: say("The laptop is busy; they go again in a moment."),
})[bench.sending];

export function Sending() {
  const b = useBench(), troubles = troubled(), waits = b.queue.filter((entry) => !entry.trouble);
  return (
    <section aria-label={say("To the laptop")}>
      {alone() ? <Caution text={say("This page has no laptop behind it. Hand its readings over before this browser is cleared.")} /> : null}
      <p role="status">{b.queue.length === 0 ? say("Everything is at the laptop.") : sayMany("{0} slip waits.", "{0} slips wait.", waits.length)} {waits.length ? sendingWord() : ""}</p>
      <Damaged />
      {troubles.length ? <><h2>{sayMany("{0} needs you", "{0} need you", troubles.length)}</h2><ul class="plainlist">{troubles.map((entry) => <TroubleView key={entry.n} entry={entry} />)}</ul></> : null}
      {waits.length ? <><ul class="plainlist small">{waits.slice(0, 60).map((entry) => <li key={entry.n}>{told(entry.slip)}{heldUp(entry) ? ` · ${say("waits for the one above")}` : ""}</li>)}</ul>
        {alone() ? null : <div class="buttons"><button type="button" onClick={() => void send()}>{say("Send now")}</button></div>}</> : null}
      {b.queue.length ? <Hand slips={b.queue.map((entry) => entry.slip)} /> : null}
      <Take />
    </section>
  );
}
