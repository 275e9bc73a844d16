// SPDX-License-Identifier: GPL-3.0-or-later
// Texts in the person's language. The English text is its own key; scripts/words finds say("...") and sayMany("...", "...")
// in these files, so both take texts written out, with {0}, {1} where values go.
import { alone, textFile } from "./carried";
import type { Sentences } from "./sentence";

interface Catalogue { code: string; decimal: string; group: string; plural: string; texts: Record<string, string | string[]> }
export interface Language { code: string; name: string }

const key = "lanewick.language";
let catalogue: Catalogue = { code: "en", decimal: ".", group: "\u202f", plural: "", texts: {} };

const fill = (text: string, values: (string | number)[]): string => text.replace(/\{(\d+)\}/g, (_, n: string) => String(values[Number(n)] ?? ""));

export function say(english: string, ...values: (string | number)[]): string {
  const text = catalogue.texts[english];
  return fill(typeof text === "string" ? text : english, values);
}

/** The form that goes with the number n, which is {0}: sayMany("{0} night", "{0} nights", 3). */
export function sayMany(one: string, many: string, n: number, ...values: (string | number)[]): string {
  const forms = catalogue.texts[one], size = Math.floor(Math.abs(n));
  const form = Array.isArray(forms) ? forms[Number(catalogue.plural[size < 200 ? size : 100 + (size % 100)] ?? 0)] : undefined;
  return fill(form ?? (n === 1 ? one : many), [n, ...values]);
}

/** Decimal sign and sign between thousands. */
export const signs = (): { decimal: string; group: string } => catalogue;
export const language = (): string => catalogue.code;

/** All there are; English alone when the server is out of reach and nothing was kept. */
export async function languages(): Promise<Language[]> {
  try {
    return JSON.parse(await textFile("/words/list.json")) as Language[];
  } catch {
    return [{ code: "en", name: "English" }];
  }
}

export const atLaptop = (): boolean => !alone() && ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname);
/** What was chosen once at the laptop, by the page or by the command line; a phone is told none. */
async function ofLaptop(): Promise<string> {
  try {
    return !atLaptop() ? "" : ((await (await fetch("/api/v1")).json()) as { language?: string }).language ?? "";
  } catch {
    return ""; /* out of reach */
  }
}

/** The chosen one, else that of the laptop, else the first of the browser's that there is. */
async function wanted(): Promise<string> {
  const chosen = localStorage.getItem(key) ?? (await ofLaptop());
  if (chosen) return chosen;
  const spoken = navigator.languages.map((tag) => tag.slice(0, 2).toLowerCase());
  if (spoken[0] === "en") return "en";
  const there = (await languages()).map((one) => one.code);
  return spoken.find((code) => there.includes(code)) ?? "en";
}

/* What the core and the laptop say is English and is said here: told(). Its catalogues come after the first screen. */
let sentences: Sentences | null = null;
const remembered = new Map<string, string>(), hearers = new Set<() => void>();

/** A finished sentence of the core, the laptop or a figure's text, in the person's language as far as it is known. */
export function told(english: string): string {
  if (!sentences) return english;
  const known = remembered.get(english);
  if (known !== undefined) return known;
  if (remembered.size > 3000) remembered.clear();
  const text = sentences.say(english);
  remembered.set(english, text);
  return text;
}

/** The same as a sentence that stands by itself: with a capital and a full stop. */
export function sentenceOf(english: string): string {
  const text = told(english);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
}

/** A part's name as it is known, word for word; names that a person gave stay. */
export const named = (english: string): string => sentences?.exact(english) ?? english;

export function hearWords(hear: () => void): () => void {
  hearers.add(hear);
  return () => void hearers.delete(hear);
}

/* Names of figures and of their fields, word for word: as values in a sentence they would be told where a person's own word stands. */
let labels: Record<string, string> = {};
export const labelOf = (english: string): string => labels[english] ?? english;

async function partOf(name: string): Promise<Record<string, string>> {
  const files = [`/words/${name}.json`, `/words/${catalogue.code}-${name}.json`];
  const [english, texts] = (await Promise.all(files.map((file) => textFile(file)))).map((text) => JSON.parse(text) as string[]);
  return Object.fromEntries((english ?? []).map((key, i) => [key, texts?.[i] ?? ""]).filter(([, text]) => text)) as Record<string, string>;
}

/** When the first screen stands. */
export async function loadSentences(): Promise<void> {
  if (catalogue.code === "en") return;
  const { Sentences } = await import("./sentence"), coming = new Sentences(catalogue.decimal);
  for (const name of alone() ? ["core", "figures", "labels"] : ["core", "laptop", "figures", "labels"]) {
    try {
      const part = await partOf(name);
      if (name === "labels") labels = part;
      else coming.add(part);
    } catch { continue; /* out of reach: English */ }
    sentences = coming;
    remembered.clear();
    hearers.forEach((hear) => hear());
  }
}

/** Before anything is said. Without its catalogue the page speaks English. */
export async function loadWords(): Promise<void> {
  const code = await wanted();
  if (code !== "en") {
    try {
      catalogue = JSON.parse(await textFile(`/words/${code}.json`)) as Catalogue;
    } catch { /* out of reach */ }
  }
  document.documentElement.lang = catalogue.code;
}

/** Opens the page anew in that language; what was typed is kept. At the laptop the command line speaks it too. */
export async function choose(code: string): Promise<void> {
  localStorage.setItem(key, code);
  if (atLaptop()) await fetch(`/api/v1/language?code=${code}`, { method: "POST" }).catch(() => undefined);
  location.reload();
}
