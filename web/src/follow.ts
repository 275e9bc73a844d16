// SPDX-License-Identifier: GPL-3.0-or-later
// Long computations of the laptop: it tells their progress by itself. Where no stream of events comes through, they are asked for.
import { ask, askEvents, Problem } from "./api";

export interface Job<T> {
  id: string; state: "waiting" | "running" | "done" | "failed" | "stopped"; done: number; what: string; name?: string;
  result?: T; error?: { field: string; message: string };
  /** Of a plan on this device. */
  spent_s?: number; left_s?: number | undefined;
}
export const ended = (job: Job<unknown>): boolean => job.state !== "waiting" && job.state !== "running";

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** Hears of a job until it ends; false: the stream broke off, or there was none. */
async function listen<T>(id: string, tell: (job: Job<T>) => void, stop: AbortSignal): Promise<boolean> {
  try {
    for await (const { event, data } of askEvents(`/jobs/${id}/events`, stop)) {
      if (event === "end") return true;
      if (event === "progress") tell(JSON.parse(data) as Job<T>);
    }
  } catch (lost) {
    if (stop.aborted) throw lost;
  }
  return false;
}

async function askOn<T>(job: Job<T>, tell: (job: Job<T>) => void, stop: AbortSignal): Promise<void> {
  for (let now = job, wait = 80; !ended(now); wait = Math.min(wait * 1.3, 1000)) {
    await pause(wait);
    now = await ask<Job<T>>("GET", `/jobs/${job.id}`, undefined, stop);
    tell(now);
  }
}

/** Follows a job to its end; `tell` hears of its progress. */
export async function follow<T>(job: Job<T>, tell: (job: Job<T>) => void, stop: AbortSignal): Promise<Job<T>> {
  tell(job);
  if (!(await listen(job.id, tell, stop))) await askOn(job, tell, stop);
  const last = await ask<Job<T>>("GET", `/jobs/${job.id}`, undefined, stop);
  tell(last);
  return last;
}

export const jobs = async (): Promise<Job<unknown>[]> => (await ask<{ jobs: Job<unknown>[] }>("GET", "/jobs")).jobs;
/** Stops it; the answer of one that has just ended is of no matter. */
export async function stopJob(id: string): Promise<void> {
  try { await ask("DELETE", `/jobs/${id}`); } catch (error) { if (!(error instanceof Problem) || error.status !== 404) throw error; }
}
