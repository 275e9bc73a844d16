// SPDX-License-Identifier: GPL-3.0-or-later
// A discharge through a resistor under way. Each reading carries the time of the wall clock, and when the next one is due follows
// from the clock alone: a screen that slept, a page that was closed and opened again lose nothing.
import { useEffect, useState } from "preact/hooks";
import { bench, resultsSoFar, takeBack, testOf, write, type Cell } from "./bench";
import { Caution } from "./form";
import { ends, judge, resultsOf, type Judged, type Result } from "./judge";
import { show, typed } from "./numbers";
import { Pad } from "./pad";
import { sentence } from "./problem";
import type { Run } from "./runs";
import { head, stamp, type TestAsk } from "./slips";
import { plainly, verdictWord } from "./takein";
import { say, told } from "./words";

const ASKED_BEFORE_END = 0.15; /* V above the end: readings twice as often */

export function useClock(): number {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const tick = (): void => setNow(Date.now()), timer = setInterval(tick, 1000);
    document.addEventListener("visibilitychange", tick);
    return () => { clearInterval(timer); document.removeEventListener("visibilitychange", tick); };
  }, []);
  return now;
}

/** When the next reading is due, by the clock. */
export function dueAt(run: Run, end_v: number): number {
  const last = run.readings[run.readings.length - 1];
  if (!last) return run.started + 10000; /* ten seconds after connecting: the resistance */
  return last.at + run.every_s * 1000 * (last.v < end_v + ASKED_BEFORE_END ? 0.5 : 1);
}

const minutes = (ms: number): string => { const s = Math.max(0, Math.round(ms / 1000)); return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`; };
export const clockTime = (at: number): string => new Date(at).toTimeString().slice(0, 5);

export const askOf = (run: Run, open_after_v?: number): TestAsk => ({
  method: "resistor", ...(run.resistor ? { resistor: run.resistor } : { load_ohm: run.load_ohm }), temp_c: run.temp_c, open_before_v: run.open_before_v,
  times_s: run.readings.map((r) => Math.round((r.at - run.started) / 100) / 10), volts_v: run.readings.map((r) => r.v),
  ...(open_after_v === undefined ? {} : { open_after_v, open_after_s: 60 }),
});

function live(run: Run, cell: Cell): { results: Result[]; judged: Judged | null; word: string } {
  if (run.readings.length < 2) return { results: [], judged: null, word: "" };
  try {
    const results = resultsOf(askOf(run), { ...cell, results: resultsSoFar(cell) }, bench.tools) ?? [];
    return { results, judged: judge({ ...cell, results: [...resultsSoFar(cell), ...results] }), word: "" };
  } catch (error) { return { results: [], judged: null, word: sentence(error) }; }
}

function Story({ run, cell }: { run: Run; cell: Cell }) {
  const { results, judged, word } = live(run, cell), of = (kind: string): Result | undefined => results.find((r) => r.kind === kind);
  const drawn = of("drawn_ah"), capacity = of("capacity_ah"), ohm = of("resistance_10s_ohm");
  return (
    <div role="status">
      {drawn ? <p class="story">{say("{0} Ah drawn so far.", show(drawn.value))} {capacity ? say("As it looks now: {0} ± {1} Ah", show(capacity.value), show(capacity.sd ?? 0, 2)) : ""}{ohm ? `, ${show(ohm.value * 1000, 2)} mΩ` : ""}{capacity ? "." : ""} {judged ? <strong>{verdictWord(judged.verdict)}.</strong> : null} {plainly(judged?.reasons)}</p> : null}
      {word ? <p class="note">{told(word)}</p> : null}
    </div>
  );
}

export function RunView({ run, cell }: { run: Run; cell: Cell }) {
  const now = useClock(), end_v = ends[cell.voltage_class ?? ""] ?? 3.0, due = dueAt(run, end_v), late = now >= due;
  const [text, setText] = useState(""), [wrong, setWrong] = useState(""), [asked, setAsked] = useState(0);
  const last = run.readings[run.readings.length - 1], over = last !== undefined && last.v <= end_v;
  useEffect(() => {
    if (!late || asked === due || run.ended) return;
    setAsked(due);
    navigator.vibrate?.([200, 100, 200]);
  }, [late, due]);
  const read = async (): Promise<void> => {
    const v = typed(text);
    if (Number.isNaN(v) || v < 0 || v > 4.6) { setWrong(say("The voltage of one cell reads 0 to 4.6 V.")); return; }
    setText(""); setWrong("");
    if (run.ended) { await finish(v); return; }
    await write([{ ...head(), kind: "reading", run: run.id, volts: v }]);
  };
  /** What is not sent yet is simply gone; what is at the laptop is taken back by a slip. */
  const back = async (): Promise<void> => {
    if (!last) return;
    const entry = bench.queue.find((one) => one.slip.id === last.id);
    if (entry) await takeBack(entry.slip);
    else await write([{ ...head(), kind: "remove", row: last.id }]);
  };
  const finish = async (after?: number): Promise<void> => {
    try {
      if (run.readings.length < 2) { setWrong(say("Two readings at least are needed.")); return; }
      await write([{ ...testOf(cell, askOf(run, after)), run: run.id, at: stamp(run.started) }]);
    } catch (error) { setWrong(told(sentence(error))); }
  };
  return (
    <section aria-label={say("Discharge of {0}", cell.code)} class="run">
      <h2>{cell.code}, {run.resistor ?? `${show(run.load_ohm)} Ω`}, {say("since {0}", clockTime(run.started))}</h2>
      {run.ended ? <p>{say("Disconnected. One minute later read the voltage once more: the rebound shows the resistance.")}</p>
        : over ? <div class="alarm" role="alert">{say("{0} V: the end is reached. Disconnect the resistor now.", show(last.v))}</div>
          : <p class={late ? "note asks" : "quiet"} role={late ? "alert" : undefined}>{late ? say("Read {0} now. It is due since {1}.", cell.code, clockTime(due)) : say("Next reading in {0}, at {1}.", minutes(due - now), clockTime(due))}</p>}
      <Pad label={run.ended ? say("Voltage a minute after disconnecting") : say("Voltage under load")} unit="V" text={text} set={(t) => { setText(t); setWrong(""); }} wrong={wrong || undefined} enter={say("Keep the reading")} done={() => void read()} />
      <Story run={run} cell={cell} />
      <p class="quiet">{run.readings.map((r) => `${clockTime(r.at)} ${show(r.v, 4)} V`).join(" · ")}</p>
      <div class="buttons">
        {run.ended ? <button type="button" onClick={() => void finish()}>{say("Finish without it")}</button> : <button type="button" class={over ? "main" : ""} onClick={() => void write([{ ...head(), kind: "reading", run: run.id, disconnected: true }])} disabled={run.readings.length < 2}>{say("It is disconnected")}</button>}
        <button type="button" disabled={!run.readings.length} onClick={() => void back()}>{say("Take the last reading back")}</button>
        <button type="button" onClick={() => { if (confirm(say("Throw this discharge away, with {0} readings?", run.readings.length))) void write([{ ...head(), kind: "remove", row: run.id }]); }}>{say("Throw this discharge away")}</button>
      </div>
      <p class="hint">{say("Any phone of the bench may take the next reading. Their clocks must agree.")}</p>
      <Caution text={say("The cell's own cut-off guards it, not this page: a phone may sleep, a person may forget. Never leave a discharge alone.")} />
    </section>
  );
}
