// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as people type and read them: comma or point, two or three digits that mean something.
import { say, signs } from "./words";

/** NaN when it is no number. Comma or point for the decimals; spaces between thousands. */
export function typed(text: string): number {
  const plain = text.trim().replace(/[\s\u00a0\u202f_']/g, "").replace("−", "-");
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i.test(plain)) return NaN;
  return Number(plain.replace(",", "."));
}

/** A list typed with spaces or semicolons between the numbers; null when one of them is none. */
export function typedList(text: string): number[] | null {
  const parts = text.split(/[;\s]+|,\s+/).filter((part) => part !== "");
  const values = (parts.length === 1 && /,.*,/.test(text) ? text.split(",") : parts).map(typed);
  return values.some(Number.isNaN) ? null : values;
}

/** With the signs of the language for decimals and thousands. */
export function signed(english: string): string {
  const { decimal, group } = signs();
  return english.replace(/[,.]/g, (sign) => (sign === "," ? group : decimal));
}
/** As it is typed into a field. */
export const plain = (value: number): string => String(value).replace(".", signs().decimal);

/** To so many digits that mean something, never in powers of ten for sizes of daily life. */
export function show(value: number | null | undefined, digits = 3): string {
  if (value === null || value === undefined || Number.isNaN(value)) return "–";
  const size = Math.abs(value);
  if (size !== 0 && (size >= 1e7 || size < 1e-3)) return value.toExponential(digits - 1).replace("e+", " × 10^").replace("e-", " × 10^-");
  const rounded = Number(value.toPrecision(Math.max(digits, size >= 1 ? Math.ceil(Math.log10(size + 1)) : 1)));
  return signed(rounded.toLocaleString("en", { maximumFractionDigits: 6 }));
}

/** Nights, cells: whole numbers are enough. */
export const whole = (value: number): string => show(Math.round(value), 9);

export function money(value: number, decimals = 0, text = ""): string {
  const amount = signed(value.toLocaleString("en", { minimumFractionDigits: decimals, maximumFractionDigits: decimals }));
  return text ? `${amount} ${text}` : amount;
}

export interface Band { mean: number; low: number; high: number }
const nights = (value: number): string => (value > 0 && value < 1 ? say("under 1") : whole(value));
/** "2 (1 to 5)"; a mean below one is told as such. */
export const band = (b: Band): string => say("{0} ({1} to {2})", nights(b.mean), whole(b.low), whole(b.high));

/** Names of the months, January first. */
export const months = (): string[] => [say("January"), say("February"), say("March"), say("April"), say("May"), say("June"), say("July"), say("August"), say("September"), say("October"), say("November"), say("December")];
export const month = (m: number): string => months()[m] ?? "";
