// SPDX-License-Identifier: GPL-3.0-or-later
// A worker that computes beside the page, so that it stays quick: a question comes in, its progress and its answer go out (here.ts).
import { Desk, type Wish } from "./desk";
import { Problem, sentence } from "./problem";
import { begin } from "./running";

export interface Question { core: WebAssembly.Module; id: number; wish: Wish; document: unknown; seed: number }
export type Told = { id: number } & ({ done: number } | { answer: unknown } | { kind: string; message: string; field: string });
declare const self: { onmessage: ((event: MessageEvent<Question>) => void) | null; postMessage(told: Told): void };

let desk: Promise<Desk> | null = null, now = 0;
self.onmessage = ({ data: { core, id, wish, document, seed } }) => void (async () => {
  try {
    desk ??= begin(core, (done) => self.postMessage({ id: now, done })).then((door) => new Desk(door));
    const here = await desk;
    now = id;
    self.postMessage({ id, answer: here.run(wish, document, seed) });
  } catch (error) {
    const problem = error instanceof Problem ? error : new Problem("internal", sentence(error));
    if (problem !== error) desk = null; /* the core itself stumbled: the next question gets a new one */
    self.postMessage({ id, kind: problem.kind, message: problem.message, field: problem.field });
  }
})();
