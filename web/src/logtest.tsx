// SPDX-License-Identifier: GPL-3.0-or-later
// A logged test of a cell: a whole discharge, or a current step. Samples come from a logger's file, by pasting, or one by one as the
// meter shows them; what they say of the cell is told as they arrive. A draft outlasts a closed page.
import { useEffect, useState } from "preact/hooks";
import { bench, resultsSoFar, testOf, write, type Cell } from "./bench";
import { Frame, LongField, NumberField, Say, unread, useId } from "./form";
import { judge, resultsOf, type Result } from "./judge";
import { plain, show, typed } from "./numbers";
import { sentence } from "./problem";
import { samplesOf, type Samples } from "./samples";
import type { Slip, TestAsk } from "./slips";
import { plainly, verdictWord } from "./takein";
import { say, sayMany } from "./words";

const MOST_BYTES = 3_000_000;
const draftKey = (cell: Cell, method: string): string => `lanewick.log.${cell.id}.${method}`;
interface Draft { text: string; began: number }
function draftOf(key: string): Draft {
  try { return JSON.parse(localStorage.getItem(key) ?? "") as Draft; } catch { return { text: "", began: 0 }; }
}
function keepDraft(key: string, draft: Draft): void {
  try { if (draft.text) localStorage.setItem(key, JSON.stringify(draft)); else localStorage.removeItem(key); } catch { /* too long to keep: it stands on the screen */ }
}

function Curve({ samples: s }: { samples: Samples }) {
  const n = s.times_s.length, last = s.times_s[n - 1] ?? 0, amps = Math.max(...s.amps_a.map(Math.abs), 1e-9);
  if (n < 2 || last <= 0) return null;
  const low = Math.min(...s.volts_v), high = Math.max(...s.volts_v), x = (t: number): string => (34 + (t / last) * 300).toFixed(1);
  const y = (v: number): string => (14 + ((high - v) / Math.max(high - low, 0.01)) * 84).toFixed(1);
  const line = (list: number[], to: (v: number) => string): string => list.map((v, i) => `${i ? "L" : "M"}${x(s.times_s[i] ?? 0)} ${to(v)}`).join("");
  return (
    <figure>
      <svg viewBox="0 0 340 128" class="plot" role="img" aria-label={say("From {0} to {1} V in {2} s, at most {3} A.", show(s.volts_v[0], 4), show(s.volts_v[n - 1], 4), show(last), show(amps))}>
        <path d="M34 108h300M34 8v100" class="axis" />
        <path d={line(s.amps_a, (a) => (108 - (Math.abs(a) / amps) * 40).toFixed(1))} class="often" />
        <path d={line(s.volts_v, y)} class="charge" />
        <text x="31" y="18" class="right">{show(high, 3)}</text><text x="31" y="102" class="right">{show(low, 3)}</text><text x="334" y="123" class="right">{show(last)} s</text>
      </svg>
      <figcaption>{say("Blue: volts. Red: amperes, up to {0} A.", show(amps))}</figcaption>
    </figure>
  );
}

const said = (results: Result[]): string => {
  const of = (kind: string): Result | undefined => results.find((r) => r.kind === kind), drawn = of("drawn_ah"), capacity = of("capacity_ah"), ohm = of("resistance_10s_ohm");
  return [
    drawn ? say("{0} Ah drawn so far.", show(drawn.value)) : "", capacity ? say("Capacity {0} ± {1} Ah.", show(capacity.value), show(capacity.sd ?? 0, 2)) : drawn ? say("The end voltage is not reached: no capacity yet.") : "",
    ohm ? say("Resistance {0} ± {1} mΩ.", show(ohm.value * 1000, 3), show((ohm.sd ?? 0) * 1000, 2)) : "",
  ].filter(Boolean).join(" ");
};

/** One reading more, with the seconds since the first by the clock. */
function OneMore({ add }: { add: (volts: number, amps: number) => void }) {
  const [volts, setVolts] = useState(""), [amps, setAmps] = useState(""), [wrong, setWrong] = useState(""), v = useId(), a = useId();
  const go = (): void => {
    if (Number.isNaN(typed(volts)) || Number.isNaN(typed(amps))) return setWrong(say("A number is missing."));
    setWrong(""); setVolts("");
    add(typed(volts), typed(amps));
    document.getElementById(v)?.focus();
  };
  const enter = (event: KeyboardEvent): void => { if (event.key === "Enter") { event.preventDefault(); go(); } };
  return (
    <>
      <div class="pair tight">
        <Frame id={v} label={say("Voltage now")} unit="V"><input id={v} value={volts} inputMode="decimal" autocomplete="off" onInput={(e) => setVolts(e.currentTarget.value)} onKeyDown={enter} /></Frame>
        <Frame id={a} label={say("Current now")} unit="A"><input id={a} value={amps} inputMode="decimal" autocomplete="off" onInput={(e) => setAmps(e.currentTarget.value)} onKeyDown={enter} /></Frame>
      </div>
      <div class="buttons"><button type="button" onClick={go}>{say("Add this reading, with the time of the clock")}</button></div>
      <Say what={wrong} />
    </>
  );
}

export function LogTest({ cell, method, kept }: { cell: Cell; method: "log" | "pulse"; kept: (slip: Slip) => void }) {
  const key = draftKey(cell, method), [draft, setDraft] = useState(() => draftOf(key)), [end, setEnd] = useState<number | undefined>(), [temp, setTemp] = useState<number | undefined>(25), [word, setWord] = useState(""), id = useId();
  const put = (next: Draft): void => { setDraft(next); keepDraft(key, next); setWord(""); };
  useEffect(() => setWord(""), [end, temp]);
  let samples: Samples | null = null, results: Result[] = [], wrong = "";
  const ask = (s: Samples): TestAsk => ({ method, times_s: s.times_s, volts_v: s.volts_v, amps_a: s.amps_a, ...(temp === undefined ? {} : { temp_c: temp }), ...(method === "log" && end !== undefined ? { end_v: end } : {}) });
  try {
    samples = draft.text.trim() ? samplesOf(draft.text) : null;
    if (samples && samples.times_s.length > 1) results = resultsOf(ask(samples), { ...cell, results: resultsSoFar(cell) }, bench.tools) ?? [];
  } catch (error) { wrong = sentence(error); }
  const judged = results.length ? judge({ ...cell, results: [...resultsSoFar(cell), ...results] }) : null;
  const read = async (files: FileList | null): Promise<void> => {
    const file = files?.[0];
    if (!file) return;
    if (file.size > MOST_BYTES) return setWord(say("{0} is too large: at most 3 MB. A sample every ten seconds is enough.", file.name));
    put({ text: await file.text(), began: 0 });
  };
  const add = (volts: number, amps: number): void => {
    const began = draft.began || Date.now(), at = Math.round((Date.now() - began) / 100) / 10;
    put({ text: `${draft.text.trimEnd()}${draft.text ? "\n" : ""}${plain(at)}; ${plain(volts)}; ${plain(amps)}`, began });
  };
  const store = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (unread(event)) return;
    if (!samples || wrong || samples.times_s.length < 2) return setWord(wrong || say("Two readings at least are needed."));
    try {
      const slip = testOf(cell, ask(samples));
      await write([slip]);
      put({ text: "", began: 0 });
      kept(slip);
    } catch (error) { setWord(sentence(error)); }
  };
  return (
    <form onSubmit={(e) => void store(e)}>
      <div class="field"><label for={id}>{say("A logger's file")}</label><input id={id} type="file" accept=".csv,.txt,.tsv,text/*" onChange={(e) => void read(e.currentTarget.files)} /></div>
      <OneMore add={add} />
      <LongField label={say("Samples: seconds; volts; amperes")} rows={6} value={draft.text} wrong={wrong || undefined} set={(text) => put({ ...draft, text })}
        hint={method === "log" ? say("A discharge from full, one sample a line; discharge counts plus. A first line may name the columns.") : say("The first sample at rest, then the load switched on and held for ten seconds or more.")} />
      <div class="pair tight">
        {method === "log" ? <NumberField label={say("End voltage")} unit="V" value={end} low={2} high={3.6} optional hint={say("Left out: usual for the class")} set={setEnd} /> : null}
        <NumberField label={say("Temperature")} unit="°C" value={temp} low={-20} high={60} optional set={setTemp} />
      </div>
      {samples && !wrong ? <Curve samples={samples} /> : null}
      <div role="status">
        {samples?.notes.map((note) => <p key={note} class="quiet">{note}</p>)}
        {results.length ? <p class="story">{say("{0} samples.", samples?.times_s.length ?? 0)} {said(results)} {judged ? <strong>{verdictWord(judged.verdict)}.</strong> : null} {plainly(judged?.reasons)}</p> : null}
      </div>
      <button class="main" disabled={!samples || !!wrong}>{sayMany("Keep this test, {0} sample", "Keep this test, {0} samples", samples?.times_s.length ?? 0)}</button>
      <Say what={word} />
    </form>
  );
}
