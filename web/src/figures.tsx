// SPDX-License-Identifier: GPL-3.0-or-later
// Every small calculation that the program has registered, as a form by itself: names, units, ranges, sources come from the register.
import { useEffect, useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { core, here, type Figure, type Input, type Value } from "./core";
import { Caution, Choice, Frame, Say, TextField, useId } from "./form";
import { plain, show, typed, typedList } from "./numbers";
import { labelOf, say, told as inWords } from "./words";

const rooms = (): Record<string, string> => ({
  sun: say("Sun and place"), light: say("Light and head"), power: say("Panel and nights"), cell: say("Testing cells"), pack: say("Packs"), circuit: say("Wiring"), mast: say("Mast and base"), base: say("Numbers"),
});
/** "ldr_r10_ohm" is said as "Ldr r10": its unit stands beside it. */
const units = /_(ohm|mohm|kohm|v|mv|a|ma|ua|w|mw|wh|mwh|ah|m|mm|cm|km|m2|mm2|kg|g|lx|lm|cd|deg|c|k|h|s|min|d|days|pct|hz|pa|mpa|kpa|n|nm|hpa|au|na|uf|nf|m3|mm3|mm4|n_m3|kg_m3|k_w|lm_w|w_m2|w_m2_k|w_s_m3_k|kwh_m2|kwh_m2_day|wh_day|wh_month|wh_night|mah_day|mv_day|mv_per_day|pa_per_m|m_s|ms|per_k|per_k_v|a_per_k|v_per_k|w_per_lm|n_mm|per_w|per_h|per_month|cm2|utc)$/;
const english = (name: string, unit = ""): string => (unit ? name.replace(units, "") : name).replace(/_/g, " ").replace(/^./, (c) => c.toUpperCase());
const spoken = (name: string, unit = ""): string => labelOf(english(name, unit));
const chosen = (word: string): string => labelOf(word.replace(/_/g, " "));

/** A unit as it is typed in the register, in the signs that are read in every language (SI Brochure, 9th edition): mm2 is mm². */
const signOf = (unit: string): string => unit.replace(/^degree$/, "°").replace("degC", "°C").replace(/ohm\b/, "Ω").replace(/\bu(?=[AFWV])/, "µ").replace(/m([234])\b/g, (_, n: string) => `m${"²³⁴"[Number(n) - 2] ?? n}`);

function exampleOf(figure: Figure): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, key, quoted, plain] of figure.example.matchAll(/(\w+)=(?:"([^"]*)"|(\S+))/g)) if (key) found[key] = quoted ?? plain ?? "";
  return found;
}

/** What counts when a field is left out, as it would be typed here. */
const standsFor = (kind: Input["kind"], value: string): string => (kind === "flag" ? (value === "yes" ? say("yes") : say("no")) : kind === "number" || kind === "integer" ? plain(Number(value)) : chosen(value));

function hint(input: Input): string {
  const range = typeof input.low === "number" && typeof input.high === "number" && Math.abs(input.low) < 1e8 && input.high < 1e8 ? say("{0} to {1}", plain(input.low), plain(input.high)) : "";
  const many = input.kind === "numbers" ? say("several, with spaces between") : "";
  const without = input.required ? "" : input.default !== undefined && input.default !== "" ? say("left out: {0}", standsFor(input.kind, input.default)) : say("may be left out");
  return [inWords(input.meaning), range, many, without].filter(Boolean).join("; ");
}

function valueOf(input: Input, text: string): Value | undefined {
  if (text.trim() === "") return undefined;
  if (input.kind === "number" || input.kind === "integer") { const v = typed(text); return Number.isNaN(v) ? text : v; }
  if (input.kind === "numbers") return typedList(text) ?? text;
  if (input.kind === "flag") return text === "yes";
  return text;
}

function told(value: Value | undefined): string {
  if (value === null || value === undefined) return "–";
  if (Array.isArray(value)) return value.map((v) => show(v, 4)).join("; ");
  if (typeof value === "number") return show(value, 4);
  return typeof value === "boolean" ? (value ? say("yes") : say("no")) : inWords(value);
}

function Entry({ input, value, wrong, set }: { input: Input; value: string; wrong?: string | undefined; set: (text: string) => void }) {
  const frame = { label: spoken(input.name, input.unit), unit: signOf(input.unit), hint: hint(input), wrong };
  if (input.kind === "choice" || input.kind === "flag") {
    const of = (input.kind === "flag" ? "yes|no" : input.choices ?? "").split("|").map((c): [string, string] => [c, input.kind === "flag" ? (c === "yes" ? say("yes") : say("no")) : chosen(c)]);
    return <Choice {...frame} value={value || (input.default ?? "")} set={set} of={input.default ? of : [["", say("choose")], ...of]} />;
  }
  return <TextField {...frame} value={value} set={set} mode={input.kind === "text" || input.kind === "numbers" ? "text" : "decimal"} />;
}

export function FigureForm({ figure }: { figure: Figure }) {
  const [texts, setTexts] = useState<Record<string, string>>({});
  const [answer, setAnswer] = useState<Record<string, Value> | null>(null);
  const [wrong, setWrong] = useState<{ field: string; text: string }>({ field: "", text: "" });
  const run = async (values: Record<string, string>): Promise<void> => {
    const body: Record<string, Value> = {};
    for (const input of figure.inputs) {
      const value = valueOf(input, values[input.name] ?? "");
      if (value !== undefined) body[input.name] = value;
    }
    setWrong({ field: "", text: "" });
    try {
      setAnswer(here()?.run(figure.name, body) ?? await ask("POST", `/figures/${figure.name}`, body));
    } catch (error) {
      setAnswer(null);
      setWrong({ field: error instanceof Problem ? error.field : "", text: sentence(error) });
    }
  };
  const fill = (): void => { const values = exampleOf(figure); setTexts(values); void run(values); };
  const known = figure.inputs.some((i) => i.name === wrong.field);
  return (
    <>
      <p><a class="back" href="#/figures">{say("All figures")}</a></p>
      <h1>{spoken(figure.name)}</h1>
      <p class="lead">{inWords(figure.summary)}</p>
      {figure.caution ? <Caution text={figure.caution} /> : null}
      <form onSubmit={(e) => { e.preventDefault(); void run(texts); }}>
        <div class="pair">{figure.inputs.map((input) => (
          <Entry key={input.name} input={input} value={texts[input.name] ?? ""} wrong={wrong.field === input.name ? wrong.text : undefined} set={(text) => setTexts({ ...texts, [input.name]: text })} />
        ))}</div>
        <div class="buttons"><button class="main">{say("Compute")}</button><button type="button" onClick={fill}>{say("Fill in the example")}</button></div>
      </form>
      <Say what={known ? say("{0}: see the word under it.", spoken(wrong.field)) : wrong.text} />
      <div role="status">{answer ? <dl class="answers">{figure.outputs.map((o) => (
        <div key={o.name}><dt>{spoken(o.name, o.unit)}<span class="quiet">{o.meaning ? `: ${inWords(o.meaning)}` : ""}</span></dt><dd>{told(answer[o.name])}{o.unit ? <span class="quiet">{"\u2009"}{signOf(o.unit)}</span> : null}</dd></div>
      ))}</dl> : null}</div>
      {figure.limits ? <p><strong>{say("Holds when:")}</strong> {inWords(figure.limits)}</p> : null}
      <p class="quiet">{say("Source: {0}", figure.source)}</p>
    </>
  );
}

function FigureList({ figures }: { figures: Figure[] }) {
  const [sought, setSought] = useState("");
  const id = useId();
  const fits = figures.filter((f) => `${spoken(f.name)} ${english(f.name)} ${f.name} ${inWords(f.summary)}`.toLowerCase().includes(sought.trim().toLowerCase()));
  return (
    <>
      <h1>{say("Figures")}</h1>
      <p class="lead">{say("{0} small calculations, each with its source. They need no plan.", figures.length)}</p>
      <Frame id={id} label={say("Search")}><input id={id} type="search" value={sought} onInput={(e) => setSought(e.currentTarget.value)} /></Frame>
      <p class="quiet" role="status">{sought ? say("{0} found", fits.length) : ""}</p>
      {[...new Set([...Object.keys(rooms()), ...fits.map((f) => f.room)])].filter((room) => fits.some((f) => f.room === room)).map((room) => (
        <section key={room} aria-label={rooms()[room] ?? room}>
          <h2>{rooms()[room] ?? room}</h2>
          <ul class="cards">{fits.filter((f) => f.room === room).map((f) => (
            <li key={f.name}><a href={`#/figures/${f.name}`}><strong>{spoken(f.name)}</strong><span>{inWords(f.summary)}</span></a></li>
          ))}</ul>
        </section>
      ))}
    </>
  );
}

export function FiguresStage({ name }: { name: string }) {
  const [figures, setFigures] = useState<Figure[] | null>(null);
  const [word, setWord] = useState("");
  useEffect(() => {
    const asked = here()?.figures ?? ask<Figure[]>("GET", "/figures").catch(async (error: unknown) => (await core())?.figures ?? Promise.reject(error));
    Promise.resolve(asked).then(setFigures, (error: unknown) => setWord(sentence(error)));
  }, []);
  if (!figures) return <><h1>{say("Figures")}</h1><Say what={word} /></>;
  if (!name) return <FigureList figures={figures} />;
  const figure = figures.find((f) => f.name === name);
  return figure ? <FigureForm key={name} figure={figure} /> : <><h1>{say("Figures")}</h1><p>{say("There is no figure “{0}”.", name)} <a href="#/figures">{say("All figures")}</a></p></>;
}
