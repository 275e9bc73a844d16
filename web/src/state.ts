// SPDX-License-Identifier: GPL-3.0-or-later
// What the page knows: what was asked for and the answers, each with the question it was computed from, so that an answer whose
// question has changed since is told apart. Kept in the browser, so that a reload loses nothing.
import { useEffect, useState } from "preact/hooks";
import type { Brief, Climate, LaneLight, Match, Plan } from "./shapes";
import { firstLane, firstMast, firstPack, firstWiring, type LaneAsk, type MastAsk, type PackAsk, type WiringAsk } from "./asks";
import type { MastAnswer, Readings } from "./shapes";

export interface Answered<T> { asked: string; value: T }
/** What people type and drag: this can be undone. seed: another one makes another draw of weather, and other codes on the labels. */
export interface Inputs { brief: Brief | null; lane: LaneAsk; cells: string; pack: PackAsk; seed: number; mastAsk: MastAsk; wiringAsk: WiringAsk }
export interface Answers {
  climate?: Answered<Climate>; light?: Answered<LaneLight>; plan?: Answered<Plan>; match?: Answered<Match>;
  crate?: Answered<{ tested: number; all: number }>; mast?: Answered<MastAnswer>; wiring?: Answered<Readings>; sheets?: Answered<{ pages: number }>;
}
export type Known = Inputs & Answers;

const key = "lanewick.page/1";
const start: Known = { brief: null, lane: firstLane, cells: "", pack: firstPack, seed: 1, mastAsk: firstMast, wiringAsk: firstWiring };
const typedIn = Object.keys(start) as (keyof Inputs)[];

/** Kept by an older page: its parts may have fewer fields. */
function whole(kept: Partial<Known>): Known {
  return { ...start, ...kept, lane: { ...firstLane, ...kept.lane }, pack: { ...firstPack, ...kept.pack }, mastAsk: { ...firstMast, ...kept.mastAsk }, wiringAsk: { ...firstWiring, ...kept.wiringAsk } };
}
function load(): Known {
  try {
    return whole(JSON.parse(localStorage.getItem(key) ?? "{}") as Partial<Known>);
  } catch {
    return start;
  }
}

let known = load();
const hearers = new Set<() => void>();
export const knownNow = (): Known => known;
export function hearKnown(hear: () => void): () => void {
  hearers.add(hear);
  return () => void hearers.delete(hear);
}

function put(next: Known): void {
  known = next;
  try {
    localStorage.setItem(key, JSON.stringify(known));
  } catch {
    /* The browser keeps nothing: the page still works until it is closed. */
  }
  hearers.forEach((hear) => hear());
}

/* Steps back and forth. Letters typed one after the other into one part are one step. */
const MOST_STEPS = 100, ONE_STEP_MS = 900;
let past: Inputs[] = [], future: Inputs[] = [], lastPart = "", lastTime = 0;
export const inputsOf = (k: Known): Inputs => ({ brief: k.brief, lane: k.lane, cells: k.cells, pack: k.pack, seed: k.seed, mastAsk: k.mastAsk, wiringAsk: k.wiringAsk });

export function change(part: Partial<Known>): void {
  const changed = typedIn.filter((name) => part[name] !== undefined && JSON.stringify(part[name]) !== JSON.stringify(known[name]));
  if (changed.length) {
    const now = Date.now(), same = changed.join() === lastPart && now - lastTime < ONE_STEP_MS && past.length > 0;
    if (!same) past = [...past.slice(1 - MOST_STEPS), inputsOf(known)];
    future = [];
    lastPart = changed.join();
    lastTime = now;
  }
  put({ ...known, ...part });
}

export const canUndo = (): boolean => past.length > 0;
export const canRedo = (): boolean => future.length > 0;
export function undo(): void {
  const before = past.pop();
  if (!before) return;
  future.push(inputsOf(known));
  lastPart = "";
  put({ ...known, ...before });
}
export function redo(): void {
  const after = future.pop();
  if (!after) return;
  past.push(inputsOf(known));
  lastPart = "";
  put({ ...known, ...after });
}

/** Another plan takes the place of this one; that, too, can be undone. */
export function open(inputs: Inputs, plan: Answered<Plan> | undefined): void {
  past = [...past.slice(1 - MOST_STEPS), inputsOf(known)];
  future = [];
  lastPart = "";
  const { climate: _1, light: _2, plan: _3, match: _4, mast: _5, wiring: _6, ...rest } = known;
  put(whole({ ...rest, ...inputs, seed: inputs.seed ?? 1, ...(plan ? { plan } : {}) }));
}

export const forget = (): void => localStorage.removeItem(key);

export function useKnown(): Known {
  const [, again] = useState(0);
  useEffect(() => hearKnown(() => again((n) => n + 1)), []);
  return known;
}
