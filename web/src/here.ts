// SPDX-License-Identifier: GPL-3.0-or-later
// Whole questions that this device answers by itself, where the laptop is out of reach or there is none: plan, lane, pack, mast,
// circuit, ribbon. A worker computes them beside the page. A plan has a worker of its own: it ends with it, and so does its memory.
import type { Question, Told } from "./beside";
import { alone, textFile } from "./carried";
import { compiled, coreMissing } from "./core";
import type { Wish } from "./desk";
import type { Job } from "./follow";
import { Problem } from "./problem";
import type { Brief, Plan } from "./shapes";
import { say } from "./words";

interface Asks { seed?: number; stop?: AbortSignal | undefined; progress?: (done: number) => void }
interface Waits { yes: (answer: unknown) => void; no: (error: unknown) => void; progress: (done: number) => void }
const cannot = (): Problem => new Problem("away", coreMissing());

class Beside {
  private readonly waiting = new Map<number, Waits>();
  private count = 0;
  constructor(private readonly worker: Worker, private readonly core: WebAssembly.Module, lost: () => void) {
    worker.onmessage = ({ data }: MessageEvent<Told>) => this.hear(data);
    worker.onerror = worker.onmessageerror = () => { lost(); this.end(cannot()); };
  }

  static async start(lost: () => void): Promise<Beside> {
    try {
      const core = await compiled();
      const path = alone() ? URL.createObjectURL(new Blob([await textFile("/beside.js")], { type: "text/javascript" })) : "/beside.js";
      return new Beside(new Worker(path), core, lost);
    } catch {
      lost();
      throw cannot();
    }
  }

  private hear(told: Told): void {
    const one = this.waiting.get(told.id);
    if (!one) return;
    if ("done" in told) return one.progress(told.done);
    this.waiting.delete(told.id);
    if ("answer" in told) one.yes(told.answer);
    else one.no(new Problem(told.kind, told.message, told.field));
  }

  ask(wish: Wish, document: unknown, { seed = 1, stop, progress = () => undefined }: Asks): Promise<unknown> {
    const id = ++this.count, question: Question = { core: this.core, id, wish, document, seed };
    return new Promise((yes, no) => {
      if (stop?.aborted) return no(new DOMException("stopped", "AbortError"));
      stop?.addEventListener("abort", () => { this.waiting.delete(id); no(new DOMException("stopped", "AbortError")); });
      this.waiting.set(id, { yes, no, progress });
      this.worker.postMessage(question);
    });
  }

  end(why: unknown = null): void {
    this.worker.terminate();
    this.waiting.forEach((one) => one.no(why));
    this.waiting.clear();
  }
}

let quick: Promise<Beside> | null = null;
/** An answer of a moment. */
export async function askHere(wish: Wish, document: unknown, stop?: AbortSignal): Promise<unknown> {
  quick ??= Beside.start(() => { quick = null; });
  return (await quick).ask(wish, document, { stop });
}

/** How long the last plan took on this device, in seconds: with a lane to light, without. */
const key = "lanewick.pace/1", shape = (brief: Brief): string => (brief.want["lane"] === undefined ? "lamps" : "lane");
function paces(): Record<string, number> {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "{}") as Record<string, number>;
  } catch {
    return {};
  }
}

/** Crates are at the laptop: here their cells are as the last plan has them. */
function withCells(brief: Brief, last: Brief | undefined): Brief {
  const cells = brief.shelf.cells.map((part) => {
    if (part["crate"] === undefined || part["cells"] !== undefined) return part;
    const told = last?.shelf.cells.find((one) => one["crate"] === part["crate"] && one["class"] === part["class"] && one["cells"] !== undefined);
    if (!told) throw new Problem("away", say("This needs the laptop: the cells of this brief come from a list or a crate."));
    return { ...told, ...part };
  });
  return { ...brief, shelf: { ...brief.shelf, cells } };
}

/** The plan of a brief, computed here; ending it ends the worker. */
export async function planHere(asked: Brief, last: Brief | undefined, seed: number, stop: AbortSignal, tell: (job: Job<Plan>) => void): Promise<Plan> {
  const brief = withCells(asked, last), beside = await Beside.start(() => undefined), begun = Date.now(), before = paces()[shape(brief)];
  let done = 0;
  const told = (): void => {
    const spent_s = (Date.now() - begun) / 1000, all_s = before ?? (done >= 0.5 ? spent_s / done : 0);
    tell({ id: "", state: "running", done, what: "here", spent_s, left_s: all_s > spent_s ? all_s - spent_s : undefined });
  };
  const clock = setInterval(told, 1000);
  told();
  try {
    const plan = (await beside.ask("plan", brief, { seed, stop, progress: (now) => { done = now; told(); } })) as Plan;
    try { localStorage.setItem(key, JSON.stringify({ ...paces(), [shape(brief)]: (Date.now() - begun) / 1000 })); } catch { /* then the next one has no estimate */ }
    return { ...plan, here: true };
  } finally {
    clearInterval(clock);
    beside.end();
  }
}
