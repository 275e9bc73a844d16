// SPDX-License-Identifier: GPL-3.0-or-later
// What the page knows: the brief as it is being written and the answers, each with the question it was computed from, so that an
// answer whose question has changed since is told apart. Kept in the browser, so that a reload loses nothing.
import { useEffect, useState } from "preact/hooks";
import type { Brief, Climate, LaneLight, Match, Plan } from "./shapes";
import type { MastAnswer } from "./mast";
import type { Readings } from "./wiring";

export interface Answered<T> { asked: string; value: T }
export interface LaneAsk { length_m: number; width_m: number; class: string; masts: number; height_m: number; side: string; lumens: number }
export interface Known {
  brief: Brief | null;
  lane: LaneAsk;
  cells: string;
  climate?: Answered<Climate>; light?: Answered<LaneLight>; plan?: Answered<Plan>; match?: Answered<Match>;
  crate?: Answered<{ tested: number; all: number }>; mast?: Answered<MastAnswer>; wiring?: Answered<Readings>;
}

const key = "lanewick.page/1";
const start: Known = {
  brief: null,
  lane: { length_m: 60, width_m: 2.5, class: "P6", masts: 3, height_m: 4, side: "one", lumens: 800 },
  cells: "",
};

function load(): Known {
  try {
    return { ...start, ...(JSON.parse(localStorage.getItem(key) ?? "{}") as Partial<Known>) };
  } catch {
    return start;
  }
}

let known = load();
const past: (Brief | null)[] = [];
const hearers = new Set<() => void>();

export function change(part: Partial<Known>): void {
  if (part.brief !== undefined && JSON.stringify(part.brief) !== JSON.stringify(known.brief)) past.push(known.brief);
  known = { ...known, ...part };
  try {
    localStorage.setItem(key, JSON.stringify(known));
  } catch {
    /* The browser keeps nothing: the page still works until it is closed. */
  }
  hearers.forEach((hear) => hear());
}

export const forget = (): void => localStorage.removeItem(key);
export const canUndo = (): boolean => past.length > 0;
export function undo(): void {
  const before = past.pop();
  if (before === undefined) return;
  change({ brief: before });
  past.pop();
}

export function useKnown(): Known {
  const [, again] = useState(0);
  useEffect(() => {
    const hear = (): void => again((n) => n + 1);
    hearers.add(hear);
    return () => void hearers.delete(hear);
  }, []);
  return known;
}

/** The question each answer belongs to. */
export const asked = {
  climate: (k: Known): string => JSON.stringify([k.brief?.place.lat_deg, k.brief?.place.lon_deg, k.brief?.place.elev_m]),
  light: (k: Known): string => JSON.stringify(k.lane),
  plan: (k: Known): string => JSON.stringify(k.brief),
};
