// SPDX-License-Identifier: GPL-3.0-or-later
// The core in the browser (wasm/door.h): figures with typed values in and out. It comes after the first screen and is then
// kept, so that the page computes without the laptop; the numbers are those of the program, to the last digits.
import { alone, file } from "./carried";
import { Problem } from "./problem";
import { begin, type Exports } from "./running";
import { say } from "./words";

export type Kind = "number" | "integer" | "text" | "choice" | "numbers" | "flag";
export type Value = number | string | boolean | null | (number | null)[];
export interface Input { name: string; unit: string; meaning: string; kind: Kind; required: boolean; default?: string; choices?: string; low?: number | null; high?: number | null }
export interface Output { name: string; unit: string; meaning: string; kind: Kind }
export interface Figure { name: string; room: string; summary: string; source: string; limits: string | null; caution: string | null; example: string; inputs: Input[]; outputs: Output[] }

const kinds: Kind[] = ["number", "integer", "text", "choice", "numbers", "flag"];

export class Core {
  private readonly told: Figure[] = [];
  private readonly places = new Map<string, number>();
  private readonly write = new TextEncoder();
  private readonly read = new TextDecoder();
  constructor(private readonly door: Exports) {
    for (let i = 0; i < this.call("count"); i++) this.places.set(this.text("figure", i, 0) ?? "", i);
  }

  private figure(i: number): Figure { return this.told[i] ??= this.describe(i); }

  /** Described when somebody asks: a slow phone has other things to do while the page opens. */
  get figures(): Figure[] {
    return [...this.places.values()].map((i) => this.figure(i));
  }

  private call(name: string, ...values: number[]): number {
    const run = this.door[`lw_door_${name}`];
    if (!run) throw new Problem("internal", `The core of this page has no ${name}: open the page again.`);
    return run(...values);
  }

  private text(name: string, ...values: number[]): string | null {
    const at = this.call(name, ...values);
    if (at === 0) return null;
    const bytes = new Uint8Array(this.door.memory.buffer);
    return this.read.decode(bytes.subarray(at, bytes.indexOf(0, at)));
  }

  private describe(i: number): Figure {
    const word = (what: number): string => this.text("figure", i, what) ?? "";
    return {
      name: word(0), room: word(1), summary: word(2), source: word(3), limits: this.text("figure", i, 4), caution: this.text("figure", i, 5), example: word(6),
      inputs: Array.from({ length: this.call("inputs", i) }, (_, k) => this.input(i, k)),
      outputs: Array.from({ length: this.call("outputs", i) }, (_, k) => ({
        name: this.text("output", i, k, 0) ?? "", unit: this.text("output", i, k, 1) ?? "", meaning: this.text("output", i, k, 2) ?? "", kind: kinds[this.call("output_kind", i, k)] ?? "text",
      })),
    };
  }

  private input(i: number, k: number): Input {
    const fallback = this.text("input", i, k, 4), kind = kinds[this.call("input_kind", i, k)] ?? "text";
    const finite = (high: number): number | null => { const x = this.call("input_limit", i, k, high); return Number.isFinite(x) ? x : null; };
    return {
      name: this.text("input", i, k, 0) ?? "", unit: this.text("input", i, k, 1) ?? "", meaning: this.text("input", i, k, 2) ?? "", kind, required: fallback === null,
      ...(fallback ? { default: fallback } : {}), ...(kind === "choice" ? { choices: this.text("input", i, k, 3) ?? "" } : {}),
      ...(kind === "number" || kind === "integer" || kind === "numbers" ? { low: finite(0), high: finite(1) } : {}),
    };
  }

  private put(text: string): void {
    const bytes = this.write.encode(text), most = this.call("text_bytes") - 1;
    if (bytes.length > most || bytes.includes(0)) throw new Problem("wrong-input", "This text is too long.");
    const at = this.call("text_room"), memory = new Uint8Array(this.door.memory.buffer);
    memory.set(bytes, at);
    memory[at + bytes.length] = 0;
  }

  private fail(kind: string): never {
    throw new Problem(kind, this.text("fault", 0) ?? "", this.text("fault", 1) ?? "");
  }

  private set(figure: Figure, key: string, value: Value | undefined): void {
    if (value === undefined || value === null) return;
    this.put(key);
    const place = this.call("key");
    if (place < 0) this.fail("wrong-input");
    const kind = figure.inputs[place]?.kind;
    const wanted = (what: string): never => { throw new Problem("wrong-input", `${key} must be ${what}.`, key); };
    if (kind === "numbers") {
      if (!Array.isArray(value) || value.some((x) => typeof x !== "number")) return wanted("a list of numbers");
      const at = this.call("list", place, value.length);
      if (at === 0) throw new Problem("wrong-input", `${key} has too many values.`, key);
      new Float64Array(this.door.memory.buffer, at, value.length).set(value as number[]);
    } else if (kind === "text" || kind === "choice") {
      if (typeof value !== "string") return wanted("a text");
      this.put(value);
      if (this.call("text", place) < 0) this.fail("internal");
    } else {
      if (typeof value !== (kind === "flag" ? "boolean" : "number")) return wanted(kind === "flag" ? "yes or no" : "a number");
      this.call("number", place, Number(value));
    }
  }

  private answer(kind: Kind, place: number): Value {
    if (!this.call("out_given", place)) return null;
    if (kind === "number" || kind === "integer") return this.call("out_number", place);
    if (kind === "flag") return this.call("out_number", place) !== 0;
    if (kind !== "numbers") return this.text("out_text", place);
    return [...new Float64Array(this.door.memory.buffer, this.call("out_list", place), this.call("out_count", place))];
  }

  /** One figure: the same keys, answers and errors as POST /figures/NAME. */
  run(name: string, values: Record<string, Value | undefined>): Record<string, Value> {
    const place = this.places.get(name), figure = place === undefined ? undefined : this.figure(place);
    if (place === undefined || !figure) throw new Problem("not-found", `There is no figure “${name}”.`, "figure");
    this.call("begin", place);
    for (const [key, value] of Object.entries(values)) this.set(figure, key, value);
    if (this.call("finish") !== 0) this.fail(this.text("fault", 2) ?? "internal");
    return Object.fromEntries(figure.outputs.map((o, i) => [o.name, this.answer(o.kind, i)]));
  }
}

export const open = async (bytes: BufferSource): Promise<Core> => new Core(await begin(await WebAssembly.compile(bytes)));

/** Why there is no core: not fetched yet, or this browser cannot run it. */
let unfit = false;
export const coreMissing = (): string => (unfit
  ? say("This browser cannot run the core of the page; a newer one can.")
  : say("The core of the page is not on this device yet. It comes by itself when the laptop is next in reach; then this is computed here, too."));
let compiling: Promise<WebAssembly.Module> | null = null;
/** Fetched and compiled once; workers get it from here. */
export function compiled(): Promise<WebAssembly.Module> {
  compiling ??= (async () => {
    unfit = alone(); /* it carries the core: what is missing then is the browser's */
    const bytes = await file("/core.wasm");
    unfit = true; /* until it is compiled */
    const core = await WebAssembly.compile(bytes);
    unfit = false;
    return core;
  })().catch((error: unknown) => { compiling = null; throw error; });
  return compiling;
}

let opening: Promise<Core | null> | null = null;
let opened: Core | null = null;
/** What is there already, without waiting. */
export const here = (): Core | null => opened;
/** Null when it cannot be had: then the laptop computes. */
export function core(): Promise<Core | null> {
  opening ??= (async () => {
    opened = new Core(await begin(await compiled()));
    return opened;
  })().catch(() => { opening = null; return null; });
  return opening;
}
