// SPDX-License-Identifier: GPL-3.0-or-later
// Texts in the person's language. The English text is its own key; scripts/words finds say("...") and sayMany("...", "...")
// in these files, so both take texts written out, with {0}, {1} where values go.
import { alone, textFile } from "./carried";

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

const atLaptop = (): boolean => !alone() && ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname);
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
