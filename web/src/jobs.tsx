// SPDX-License-Identifier: GPL-3.0-or-later
// What the laptop computes now and has computed lately, for whichever device: it tells its progress by itself, and can be stopped
// from here. One stream of events at a time: that of the job that runs; the others wait and have nothing to tell.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { ended, follow, jobs, stopJob, type Job } from "./follow";
import { Say } from "./form";
import { whole } from "./numbers";
import { openMade } from "./opened";
import type { Plan } from "./shapes";
import { say, told } from "./words";

const LOOK_MS = 5000; /* for what other devices ask meanwhile */
const word = (job: Job<unknown>): string => ({ waiting: say("waits for its turn"), running: say("{0} of 100 done", whole(job.done * 100)), done: say("done"), failed: say("failed"), stopped: say("stopped") })[job.state];

function useJobs(): [list: Job<unknown>[] | null, wrong: string, look: () => void] {
  const [list, setList] = useState<Job<unknown>[] | null>(null), [wrong, setWrong] = useState(""), [turn, setTurn] = useState(0);
  const look = (): void => setTurn((n) => n + 1);
  useEffect(() => {
    jobs().then((found) => { setList(found); setWrong(""); }, (error: unknown) => setWrong(sentence(error)));
    const later = setTimeout(look, LOOK_MS);
    return () => clearTimeout(later);
  }, [turn]);
  const first = [...(list ?? [])].reverse().find((job) => job.state === "running") ?? [...(list ?? [])].reverse().find((job) => job.state === "waiting");
  useEffect(() => {
    if (!first) return;
    const stop = new AbortController();
    const tell = (job: Job<unknown>): void => setList((now) => now?.map((one) => (one.id === job.id ? { ...one, ...job } : one)) ?? null);
    follow(first, tell, stop.signal).then(look, () => { if (!stop.signal.aborted) look(); });
    return () => stop.abort();
  }, [first?.id]);
  return [list, wrong, look];
}

export function JobsView() {
  const [list, wrong, look] = useJobs(), [fault, setFault] = useState("");
  const stop = (job: Job<unknown>): void => void stopJob(job.id).then(look, (error: unknown) => setFault(sentence(error)));
  const take = async (id: string): Promise<void> => {
    try {
      const { result } = await ask<Job<Plan>>("GET", `/jobs/${id}`);
      if (!result) return;
      openMade({ ...result, lamps: result.lamps ?? [], options: result.options ?? [], job: id });
      location.hash = "#/power";
    } catch (error) { setFault(sentence(error)); }
  };
  return (
    <>
      <p><a class="back" href="#/plans">{say("Plans")}</a></p>
      <h1>{say("What the laptop computes")}</h1>
      <p class="lead">{say("Plans that were asked for from any device, newest first. One is computed at a time.")}</p>
      <Say what={fault || wrong} />
      {list?.length === 0 ? <p>{say("Nothing has been asked since the laptop's program was started.")}</p> : null}
      <ul class="jobs" aria-label={say("What the laptop computes")}>{list?.map((job) => (
        <li key={job.id}>
          <p><strong>{job.name || say("a plan")}</strong> <span class="quiet" role={ended(job) ? undefined : "status"}>{word(job)}</span></p>
          {job.state === "running" ? <progress max={1} value={job.done} aria-label={job.name || say("a plan")} /> : null}
          {job.error ? <p class="alarm">{told(job.error.message)}</p> : null}
          {ended(job) ? job.state === "done" ? <button type="button" class="small" onClick={() => void take(job.id)}>{say("Open this plan")}</button> : null
            : <button type="button" class="small" onClick={() => stop(job)}>{say("Stop")}</button>}
        </li>
      ))}</ul>
    </>
  );
}
