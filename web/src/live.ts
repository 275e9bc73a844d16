// SPDX-License-Identifier: GPL-3.0-or-later
// Answers follow their questions: what was answered once is computed again by itself a moment after something that it rests on has
// changed. One entry a stage; whoever looks at a stage sees the old answer dimmed until the new one is there.
import { useEffect, useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { cellsOf, circuitOf, LEFT, mastsOf, packOf, wiringOf } from "./asks";
import { alone } from "./carried";
import { fieldOf } from "./field";
import { follow, stopJob, type Job } from "./follow";
import { planHere } from "./here";
import { mastQuestion, type MastAsk } from "./mastask";
import type { Brief, Climate, LaneLight, MastAnswer, MastDocument, Match, Plan, Readings } from "./shapes";
import { change, hearKnown, knownNow, type Known } from "./state";
import { say } from "./words";

export type Live = "climate" | "light" | "plan" | "match" | "mast" | "wiring";
export interface Work { question: string; busy: boolean; word: string; field: string; refused: boolean; kind?: string; job?: Job<Plan> }

/** The question that each answer belongs to. */
export const asked: Record<Live, (k: Known) => string> = {
  climate: (k) => JSON.stringify([k.brief?.place.lat_deg, k.brief?.place.lon_deg, k.brief?.place.elev_m]),
  light: (k) => JSON.stringify(k.lane),
  plan: (k) => JSON.stringify(k.brief) + (k.seed > 1 ? ` ${k.seed}` : ""),
  match: (k) => JSON.stringify([k.cells, packOf(k)]),
  mast: (k) => JSON.stringify(mastQuestion(k, k.mastTyped)),
  wiring: (k) => JSON.stringify(wiringOf(k)),
};

/* A plan that names cells of a crate is made again with these very cells, also when they are reserved by now. */
let repeats = false;
function briefToPlan(k: Known): Brief | null {
  const again = repeats && k.plan?.asked === asked.plan(k) ? k.plan.value.brief : undefined;
  repeats = false;
  return again ?? k.brief;
}

type Tell = (job: Job<Plan>) => void;
async function planThere(brief: Brief, seed: number, stop: AbortSignal, tell: Tell): Promise<Plan> {
  /* Asked to the end, also when it is stopped meanwhile: else the laptop would go on with a job that nobody knows. */
  const first = await ask<Job<Plan>>("POST", `/plans?seed=${seed}`, brief);
  const end = () => void stopJob(first.id).catch(() => undefined);
  if (stop.aborted) {
    end();
    throw new Problem("stopped", "");
  }
  stop.addEventListener("abort", end);
  const job = await follow(first, tell, stop);
  stop.removeEventListener("abort", end);
  if (job.state === "stopped") throw new Problem("stopped", say("The plan was stopped, here or at another device."));
  if (!job.result) throw new Problem("failed", job.error?.message ?? "", job.error?.field ?? "");
  return { ...job.result, job: job.id };
}
/** By the laptop, else here: the same functions, the same plan. */
async function planOf(brief: Brief, last: Brief | undefined, seed: number, stop: AbortSignal, tell: Tell): Promise<Plan> {
  if (alone()) return planHere(brief, last, seed, stop, tell);
  try {
    return await planThere(brief, seed, stop, tell);
  } catch (error) {
    if (stop.aborted || !(error instanceof Problem) || error.kind !== "away") throw error;
    return planHere(brief, last, seed, stop, tell);
  }
}

/** The mast of brief and plan, the one with what was typed, and how it stands. The form shows the masts also where the check refuses one. */
async function mastJudged(k: Known, stop: AbortSignal): Promise<MastAnswer> {
  const made = (typed: MastAsk): Promise<MastDocument> => ask("POST", "/mast/document", mastQuestion(k, typed), stop);
  const own = await made({}), document = JSON.stringify(mastQuestion(k, {})) === asked.mast(k) ? own : await made(k.mastTyped);
  if (!stop.aborted) change({ mastMade: { own, document } });
  return ask("POST", "/mast", document, stop);
}

const runs: Record<Live, (k: Known, stop: AbortSignal, tell: Tell) => Promise<object>> = {
  climate: (k, stop) => {
    const { lat_deg, lon_deg, elev_m } = k.brief?.place ?? { lat_deg: 0, lon_deg: 0 };
    return ask<Climate>("GET", `/climate?lat=${lat_deg}&lon=${lon_deg}${elev_m === undefined ? "" : `&elev=${elev_m}`}`, undefined, stop);
  },
  light: (k, stop) => ask<LaneLight>("POST", "/light/lane", {
    format: "lanewick.lane/1", field: fieldOf(k.lane), head: { ...k.lane.head, lumens: k.lane.lumens * (k.lane.level ?? 1) },
    masts: mastsOf(k.lane), class: k.lane.class, maintenance: k.lane.left ?? LEFT,
  }, stop),
  plan: async (k, stop, tell) => {
    const brief = briefToPlan(k);
    if (!brief) throw new Problem("wrong-input", say("First tell where the lane is."));
    const plan = await planOf(brief, k.plan?.value.brief, k.seed, stop, tell);
    /* A refused plan holds nothing to build from. */
    return { ...plan, lamps: plan.lamps ?? [], options: plan.options ?? [] };
  },
  match: (k, stop) => ask<Match>("POST", "/pack/match", { ...packOf(k), cells: cellsOf(k.cells, "4v2") }, stop),
  mast: mastJudged,
  wiring: (k, stop) => ask<Readings>("POST", "/circuit", circuitOf(wiringOf(k)), stop),
};
const waits: Record<Live, number> = { climate: 50, light: 60, plan: 350, match: 300, mast: 150, wiring: 150 };
/* The first change of a run is asked soon, the next ones when the hand rests: an ordinary edit is answered within a second. */
const FIRST_WAIT_MS = 120;
const waitOf = (name: Live): number => (works[name]?.busy ? waits[name] : Math.min(waits[name], FIRST_WAIT_MS));
const names = Object.keys(runs) as Live[];

const works: Partial<Record<Live, Work>> = {};
const stops: Partial<Record<Live, AbortController>> = {};
const hearers = new Set<() => void>();
const tellAll = (): void => hearers.forEach((hear) => hear());

function begin(name: Live, wait: number): void {
  stops[name]?.abort();
  const stop = new AbortController(), question = asked[name](knownNow());
  stops[name] = stop;
  const work: Work = { question, busy: true, word: "", field: "", refused: false };
  works[name] = work;
  const tell: Tell = (job) => { if (!stop.signal.aborted) { work.job = job; tellAll(); } };
  const end = (part: Partial<Work>): void => { if (works[name] === work) { Object.assign(work, part, { busy: false, job: undefined }); tellAll(); } };
  const go = async (): Promise<void> => {
    try {
      const value = await runs[name](knownNow(), stop.signal, tell);
      if (stop.signal.aborted) return;
      end({});
      change({ [name]: { asked: question, value } });
    } catch (error) {
      if (stop.signal.aborted) return;
      const problem = error instanceof Problem ? error : null;
      end({ word: sentence(error), kind: problem?.kind ?? "", field: problem?.field ?? "", refused: problem?.kind === "refused" });
      look();
    }
  };
  setTimeout(() => { if (!stop.signal.aborted) void go(); }, wait);
  tellAll();
}

/** The answer that is there fits again (typed back, undone): what was asked in between, and any word about it, is over. */
function over(name: Live, work: Work): void {
  if (work.busy) stops[name]?.abort();
  delete works[name];
  tellAll();
}
/** What was answered before follows; what was asked and failed is asked again when the question is another one. */
function look(): void {
  const k = knownNow();
  for (const name of names) {
    const question = asked[name](k), work = works[name];
    /* A drag asks faster than it is answered: the light under way is finished first, then the newest question asked. */
    if (name === "light" && work?.busy) continue;
    if (work && k[name]?.asked === question && work.question !== question) over(name, work);
    else if ((k[name] || work) && k[name]?.asked !== question && work?.question !== question && (k.brief || (name !== "plan" && name !== "climate"))) begin(name, waitOf(name));
  }
}
export function startLive(): () => void {
  look();
  /* What failed out of reach is asked again when the network is back. */
  addEventListener("online", () => names.forEach((name) => { if (works[name]?.kind === "away") begin(name, 0); }));
  return hearKnown(look);
}

/** Asks now: a button, or a stage that wants its first answer. */
export const compute = (name: Live): void => begin(name, 0);
/** The laptop has forgotten the plan: the same once more. */
export function repeatPlan(): void {
  repeats = true;
  compute("plan");
}
export function halt(name: Live): void {
  stops[name]?.abort();
  const work = works[name];
  if (work) Object.assign(work, { busy: false, job: undefined });
  tellAll();
}
export const workOf = (name: Live): Work | undefined => works[name];
export function useWork(name: Live): Work | undefined {
  const [, again] = useState(0);
  useEffect(() => {
    const hear = (): void => again((n) => n + 1);
    hearers.add(hear);
    return () => void hearers.delete(hear);
  }, []);
  return works[name];
}
/** A stage that answers by itself from the first look on. */
export function useFirst(name: Live): void {
  useEffect(() => { if (knownNow()[name]?.asked !== asked[name](knownNow()) && works[name]?.question !== asked[name](knownNow())) compute(name); }, []);
}
