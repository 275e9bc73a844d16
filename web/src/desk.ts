// SPDX-License-Identifier: GPL-3.0-or-later
// The desk in the browser (wasm/desk_door.h): a document in, a document out, by the functions that answer on the laptop. The values
// are handed over one by one and the answer is read back the same way: JSON stays with the browser.
import { Problem } from "./problem";
import type { Exports } from "./running";

/** In the order of lw_desk_wish. */
export const wishes = ["plan", "lane", "lane_search", "pack", "mast", "circuit", "ribbon", "lamp_mast"] as const;
export type Wish = (typeof wishes)[number];

export class Desk {
  private readonly write = new TextEncoder();
  private readonly read = new TextDecoder();
  constructor(private readonly door: Exports) {}

  /** Of the browser's memory, in bytes; it never shrinks. */
  get memory(): number {
    return this.door.memory.buffer.byteLength;
  }

  private call(name: string, ...values: number[]): number {
    const run = this.door[`lw_desk_door_${name}`];
    if (!run) throw new Problem("internal", `The core of this page has no ${name}: open the page again.`);
    return run(...values);
  }

  private text(at: number): string {
    const bytes = new Uint8Array(this.door.memory.buffer);
    return at ? this.read.decode(bytes.subarray(at, bytes.indexOf(0, at))) : "";
  }

  private fault(what: number): string { return this.text(this.call("fault", what)); }

  private well(done: number): void {
    if (done < 0) throw new Problem("internal", "This is too large or too deeply nested for this device.");
  }

  private room(text: string): void {
    const bytes = this.write.encode(text);
    if (bytes.includes(0)) throw new Problem("wrong-input", "A text holds a sign that cannot be printed.");
    const at = this.call("room", bytes.length);
    this.well(at ? 0 : -1);
    new Uint8Array(this.door.memory.buffer).set(bytes, at);
  }

  private put(value: unknown): void {
    if (typeof value === "number" && Number.isFinite(value)) this.well(this.call("number", value));
    else if (typeof value === "boolean") this.well(this.call("flag", Number(value)));
    else if (typeof value === "string") { this.room(value); this.well(this.call("text")); }
    else if (typeof value !== "object" || value === null) this.well(this.call("none"));
    else {
      this.well(this.call("open", Number(Array.isArray(value))));
      if (Array.isArray(value)) value.forEach((one) => this.put(one));
      else for (const [key, one] of Object.entries(value)) if (one !== undefined) { this.room(key); this.well(this.call("key")); this.put(one); }
      this.well(this.call("close"));
    }
  }

  private take(at: number): unknown {
    const entries = (): number[] => Array.from({ length: this.call("count", at) }, (_, i) => this.call("entry", at, i));
    switch (this.call("kind", at)) {
      case 0: return Object.fromEntries(entries().map((one, i) => [this.text(this.call("entry_key", at, i)), this.take(one)]));
      case 1: return entries().map((one) => this.take(one));
      case 2: return this.text(this.call("words", at));
      case 3: case 4: return this.call("value", at);
      case 5: return true;
      case 6: return false;
      default: return null;
    }
  }

  /** What the laptop would answer; its errors are thrown as Problems of the same field and sentence. */
  run(wish: Wish, document: unknown, seed = 1): unknown {
    this.call("begin");
    this.put(document);
    if (this.call("run", wishes.indexOf(wish), seed) !== 0) throw new Problem(this.fault(2), this.fault(0), this.fault(1));
    const answer = this.take(this.call("answer"));
    this.call("begin");
    return answer;
  }
}
