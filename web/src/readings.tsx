// SPDX-License-Identifier: GPL-3.0-or-later
// Tests at the bench: a cell by its label, then what was read. The verdict follows each reading at once.
import { useEffect, useState } from "preact/hooks";
import { resultsSoFar, takeBack, testOf, useBench, write, type Cell } from "./bench";
import { Caution, Choice, Frame, NumberField, Say, unread, useId } from "./form";
import { resultsOf } from "./judge";
import { LogTest } from "./logtest";
import { sentence } from "./problem";
import { RunView } from "./run";
import { ScanButton } from "./scan";
import { alone, freshRuns, freshTests } from "./send";
import { head, type Slip, type TestAsk } from "./slips";
import { nextWords, Told } from "./takein";
import { say } from "./words";

type Method = TestAsk["method"];
const methods = (): [Method, string][] => [
  ["resistor", say("discharge through a resistor: capacity")], ["log", say("logged discharge: capacity")], ["two_pulse", say("two loads: resistance")], ["pulse", say("logged current step: resistance")], ["hold", say("one day after a full charge")], ["rest", say("resting voltage, today")],
  ["charger", say("capacity read off a charger")], ["flag", say("something seen while charging")],
];
const flags = (): [string, string][] => [["hot_on_charge", say("hot while charging")], ["no_taper", say("the current did not fall")], ["recovered", say("was low, came back")], ["open_circuit", say("no voltage at all: open")]];
const cautions = (): Partial<Record<Method, string>> => ({
  resistor: say("The resistor gets hot: on metal or stone, nothing near it. The jig's own cut-off must end the discharge. Never leave it alone."),
  hold: say("Charging only attended, between 0 and 45 °C, never where people sleep."), charger: say("Charging only attended, between 0 and 45 °C, never where people sleep."),
  log: say("The load gets hot: on metal or stone. The logger's own cut-off must end the discharge. Never leave it alone."), pulse: say("A large load heats wire and clips: hold it no longer than half a minute."),
  two_pulse: say("A large load heats wire and clips: one second is enough."),
});

const LOOK_MS = 10000;
type Numbers = Record<string, number | undefined>;

function Begin({ cell, tools }: { cell: Cell; tools: { name: string; kind: string }[] }) {
  const [n, setN] = useState<Numbers>({ temp_c: 25, every_s: 600, load_ohm: 4 }), [resistor, setResistor] = useState(""), [wrong, setWrong] = useState("");
  const set = (key: string) => (value: number | undefined): void => setN({ ...n, [key]: value });
  const begin = async (event: Event): Promise<void> => {
    if (unread(event)) return;
    if (!resistor && n["load_ohm"] === undefined) { setWrong(say("The resistor's value is needed.")); return; }
    await write([{ ...head(), kind: "run", cell: cell.id, every_s: n["every_s"] ?? 600, ...(resistor ? { resistor } : { load_ohm: n["load_ohm"] ?? 4 }), ...(n["temp_c"] === undefined ? {} : { temp_c: n["temp_c"] }), ...(n["open_before_v"] === undefined ? {} : { open_before_v: n["open_before_v"] }) }]);
  };
  const listed = tools.filter((tool) => tool.kind === "resistor");
  return (
    <>
      {listed.length ? <Choice label={say("Resistor")} value={resistor} set={setResistor} of={[["", say("by its value")], ...listed.map((tool): [string, string] => [tool.name, tool.name])]} /> : null}
      <div class="pair">
        {resistor ? null : <NumberField label={say("Resistor")} unit="Ω" value={n["load_ohm"]} low={0.1} high={1000} set={set("load_ohm")} />}
        <NumberField label={say("Voltage before connecting")} unit="V" value={n["open_before_v"]} low={0} high={4.6} optional set={set("open_before_v")} />
        <NumberField label={say("Temperature")} unit="°C" value={n["temp_c"]} low={-20} high={60} set={set("temp_c")} />
        <NumberField label={say("A reading every")} unit="s" value={n["every_s"]} low={60} high={3600} set={set("every_s")} />
      </div>
      <div class="buttons"><button type="button" class="main" onClick={(e) => void begin(e)}>{say("The resistor is connected now")}</button></div>
      <Say what={wrong} />
    </>
  );
}

function One({ cell, method, kept }: { cell: Cell; method: Method; kept: (slip: Slip) => void }) {
  const b = useBench();
  const [n, setN] = useState<Numbers>({}), [flag, setFlag] = useState("hot_on_charge"), [word, setWord] = useState("");
  const field = (key: string, label: string, unit: string, low: number, high: number) => <NumberField key={key} label={label} unit={unit} value={n[key]} low={low} high={high} optional set={(value) => setN({ ...n, [key]: value })} />;
  const v = (key: string): number => n[key] ?? NaN;
  const asks: Record<Method, () => TestAsk> = {
    resistor: () => ({ method }), log: () => ({ method }), pulse: () => ({ method }), flag: () => ({ method, flag }), hold: () => ({ method, volts_v: [v("v")] }), rest: () => ({ method, times_s: [0], volts_v: [v("v")] }),
    two_pulse: () => ({ method, pulse_v: [v("u1"), v("u2")], pulse_a: [v("i1"), v("i2")] }), charger: () => ({ method, capacity_ah: v("ah"), current_a: v("a") }),
  };
  const store = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (unread(event)) return;
    const ask = asks[method]();
    try {
      if (JSON.stringify(ask).includes("null")) { setWord(say("A number is missing.")); return; }
      resultsOf(ask, { ...cell, results: resultsSoFar(cell) }, b.tools); /* wrong readings are said here, at once */
      const slip = testOf(cell, ask);
      await write([slip]);
      setN({}); setWord("");
      kept(slip);
    } catch (error) { setWord(sentence(error)); }
  };
  return (
    <form onSubmit={(e) => void store(e)}>
      {method === "flag" ? <Choice label={say("What was seen")} value={flag} set={setFlag} of={flags()} /> : null}
      <div class="pair">
        {method === "hold" ? field("v", say("Voltage 24 hours after the charge"), "V", 0, 4.6) : method === "rest" ? field("v", say("Resting voltage"), "V", 0, 4.6) : null}
        {method === "two_pulse" ? [field("u1", say("Voltage at the small load"), "V", 0, 4.6), field("i1", say("Small load"), "A", 0, 1000), field("u2", say("Voltage at the large load"), "V", 0, 4.6), field("i2", say("Large load"), "A", 0, 1000)] : null}
        {method === "charger" ? [field("ah", say("Capacity as read"), "Ah", 0.01, 400), field("a", say("Current of its discharge"), "A", 0.001, 400)] : null}
      </div>
      <button class="main">{say("Keep it")}</button>
      <Say what={word} />
    </form>
  );
}

export function Readings({ start }: { start: string }) {
  const b = useBench(), id = useId();
  const [label, setLabel] = useState(start), [method, setMethod] = useState<Method>("resistor"), [last, setLast] = useState<Slip | null>(null);
  const cell = [...b.cells.values()].find((one) => one.code.toLowerCase() === label.trim().toLowerCase()), runs = [...b.runs.values()];
  useEffect(() => { if (cell && !cell.results) freshTests(cell).catch(() => undefined); }, [cell?.id, cell?.results === undefined]);
  /* other phones begin discharges and take readings too */
  useEffect(() => {
    if (alone()) return;
    const look = (): void => { if (!document.hidden) freshRuns().catch(() => undefined); };
    look();
    const timer = setInterval(look, LOOK_MS);
    document.addEventListener("visibilitychange", look);
    return () => { clearInterval(timer); document.removeEventListener("visibilitychange", look); };
  }, []);
  const needsClass = cell && ["resistor", "charger", "rest", "log"].includes(method) && (cell.voltage_class ?? "unknown") === "unknown";
  const caution = cautions()[method];
  return (
    <section aria-label={say("Tests")}>
      {runs.map((run) => { const of = b.cells.get(run.cell); return of ? <RunView key={run.id} run={run} cell={of} /> : null; })}
      <div class="pair">
        <Frame id={id} label={say("Label of the cell")}>
          <input id={id} value={label} list={`${id}-l`} autocomplete="off" onInput={(e) => { setLabel(e.currentTarget.value); setLast(null); }} />
          <datalist id={`${id}-l`}>{[...b.cells.values()].slice(0, 300).map((one) => <option key={one.id} value={one.code} />)}</datalist>
        </Frame>
        <ScanButton label={say("Scan its label")} found={(code) => { setLabel(code); return ""; }} />
      </div>
      {!cell ? <p class="quiet">{label.trim() ? say("There is no cell {0} here. Take it in first, or open its crate once while the laptop is near.", label) : say("Type or scan the label of a cell.")}</p> : (
        <>
          <div role="status"><Told cell={cell} /></div>
          {cell.next_test ? <p class="note">{say("Next test: {0}", nextWords(cell.next_test))}</p> : null}
          <Choice label={say("Test")} value={method} set={(m) => setMethod(m as Method)} of={methods()} />
          {caution ? <Caution text={caution} /> : null}
          {needsClass ? <p class="alarm">{say("The voltage class of {0} is not known, and this test needs it: read the marking and correct the cell first.", cell.code)}</p>
            : cell.verdict === "scrap" ? <p class="alarm">{say("This cell is scrap: no more tests, no charging.")}</p>
              : method === "resistor" ? runs.some((run) => run.cell === cell.id) ? <p class="note">{say("Its discharge is under way, above.")}</p> : <Begin cell={cell} tools={b.tools} />
                : method === "log" || method === "pulse" ? <LogTest key={`${cell.id} ${method}`} cell={cell} method={method} kept={setLast} />
                : <One key={`${cell.id} ${method}`} cell={cell} method={method} kept={setLast} />}
          {last ? <div class="buttons"><button type="button" onClick={() => { void takeBack(last); setLast(null); }}>{say("Undo the last test")}</button></div> : null}
        </>
      )}
    </section>
  );
}
