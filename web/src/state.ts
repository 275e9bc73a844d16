// SPDX-License-Identifier: GPL-3.0-or-later
// What the page knows: what was asked for and the answers, each with the question it was computed from, so that an answer whose
// question has changed since is told apart. Kept in the browser, so that a reload loses nothing.
import { useEffect, useState } from "preact/hooks";
import type { Brief, Climate, LaneLight, MastAnswer, Match, Plan } from "./shapes";
import { firstLane, firstPack, firstWiring, type LaneAsk, type PackAsk, type WiringAsk } from "./asks";
import type { MadeMast, MastAsk } from "./mastask";
import type { Readings } from "./shapes";
import { laneFollowing } from "./following";
import { borne } from "./taken";

export interface Answered<T> { asked: string; value: T }
/** What people type and drag: this can be undone. seed: another one makes another draw of weather, and other codes on the labels. */
export interface Inputs { brief: Brief | null; lane: LaneAsk; cells: string; pack: PackAsk; seed: number; mastTyped: MastAsk; wiringAsk: WiringAsk }
export interface Answers {
  climate?: Answered<Climate>; light?: Answered<LaneLight>; plan?: Answered<Plan>; match?: Answered<Match>;
  crate?: Answered<{ tested: number; all: number }>; mast?: Answered<MastAnswer>; mastMade?: MadeMast; wiring?: Answered<Readings>; sheets?: Answered<{ pages: number }>;
}
export type Known = Inputs & Answers;

const key = "lanewick.page/1";
const start: Known = { brief: null, lane: firstLane, cells: "", pack: firstPack, seed: 1, mastTyped: {}, wiringAsk: firstWiring };
const typedIn = Object.keys(start) as (keyof Inputs)[];

/** Kept by an older page: its parts may have fewer fields. */
function whole(kept: Partial<Known>): Known {
  return { ...start, ...kept, brief: borne(kept.brief), lane: { ...firstLane, ...kept.lane }, pack: { ...firstPack, ...kept.pack }, mastTyped: kept.mastTyped ?? {}, wiringAsk: { ...firstWiring, ...kept.wiringAsk } };
}
function read(text: string | null): Known {
  try {
    return whole(JSON.parse(text ?? "{}") as Partial<Known>);
  } catch {
    return start;
  }
}
function keptText(): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/* Seen: what stood in the browser's memory when this tab last looked, and that text. Another tab may have written since. */
let seenText = keptText(), seen = read(seenText), known = seen;
const hearers = new Set<() => void>();
export const knownNow = (): Known => known;
export function hearKnown(hear: () => void): () => void {
  hearers.add(hear);
  return () => void hearers.delete(hear);
}

const alike = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
/** With what another tab has changed, part by part; a part that was changed here since stays as it is here. */
function joined(ours: Known): Known {
  const text = keptText();
  if (text === null || text === seenText) return ours;
  const theirs = read(text), both = { ...ours }, next = { ...theirs };
  const join = <N extends keyof Known>(name: N): void => {
    if (ours[name] === seen[name] && !alike(theirs[name], ours[name])) both[name] = theirs[name];
    if (alike(both[name], theirs[name])) next[name] = both[name];
  };
  (Object.keys({ ...seen, ...theirs }) as (keyof Known)[]).forEach(join);
  seenText = text;
  seen = next;
  return both;
}

function put(next: Known): void {
  known = joined(next.brief === known.brief ? next : { ...next, brief: borne(next.brief) });
  try {
    const text = JSON.stringify(known);
    localStorage.setItem(key, text);
    seenText = text;
    seen = known;
  } catch {
    /* The browser keeps nothing: the page still works until it is closed. */
  }
  hearers.forEach((hear) => hear());
}

/** Another tab has written; one that nobody looks at waits until it is looked at, so that a plan is not computed twice. */
function takeOver(): void {
  if (document.hidden || keptText() === seenText) return;
  known = joined(known);
  hearers.forEach((hear) => hear());
}
addEventListener("storage", (event) => { if (event.key === key) takeOver(); });
document.addEventListener("visibilitychange", takeOver);

/* Steps back and forth: of each what it changed, as it was before. Letters typed one after the other into one part are one step. */
const MOST_STEPS = 100, ONE_STEP_MS = 900;
type Step = Partial<Inputs>;
const stepKey = "lanewick.step/1"; /* the last one outlives a page that is opened again, until its tab is closed */
function lastStep(): Step[] {
  try {
    return [JSON.parse(sessionStorage.getItem(stepKey) ?? "") as Step];
  } catch {
    return [];
  }
}
let past = lastStep(), future: Step[] = [], lastPart = "", lastTime = 0;
function keepStep(): void {
  try {
    const last = past[past.length - 1];
    if (last) sessionStorage.setItem(stepKey, JSON.stringify(last));
    else sessionStorage.removeItem(stepKey);
  } catch { /* then it does not */ }
}
export const inputsOf = (k: Known): Inputs => ({ brief: k.brief, lane: k.lane, cells: k.cells, pack: k.pack, seed: k.seed, mastTyped: k.mastTyped, wiringAsk: k.wiringAsk });
const before = (names: string[]): Step => Object.fromEntries(Object.entries(inputsOf(known)).filter(([name]) => names.includes(name)));
function step(names: string[]): void {
  past = [...past.slice(1 - MOST_STEPS), before(names)];
  future = [];
  keepStep();
}

export function change(given: Partial<Known>): void {
  const lane = laneFollowing(known, { ...known, ...given }), part = lane === known.lane ? given : { lane, ...given };
  /* The lane that follows a plan is no step of a person. */
  const changed = typedIn.filter((name) => (name in given || given.brief !== undefined) && part[name] !== undefined && !alike(part[name], known[name]));
  if (changed.length) {
    const now = Date.now(), same = changed.join() === lastPart && now - lastTime < ONE_STEP_MS && past.length > 0;
    if (!same) step(changed);
    future = [];
    lastPart = changed.join();
    lastTime = now;
  }
  put({ ...known, ...part });
}

export const canUndo = (): boolean => past.length > 0;
export const canRedo = (): boolean => future.length > 0;
function go(from: Step[], to: Step[]): void {
  const there = from.pop();
  if (!there) return;
  to.push(before(Object.keys(there)));
  keepStep();
  lastPart = "";
  put({ ...known, ...there });
}
export const undo = (): void => go(past, future);
export const redo = (): void => go(future, past);

/** Another plan takes the place of this one; that, too, can be undone. */
export function open(inputs: Inputs, plan: Answered<Plan> | undefined): void {
  step(typedIn);
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
