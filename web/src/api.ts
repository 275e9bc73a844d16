// SPDX-License-Identifier: GPL-3.0-or-later
// Questions to the server that gave the page; where it does not answer, this device does what it can. Every answer from 400 on is a
// problem in one sentence (RFC 9457).
import { answersItself, byItself } from "./byitself";
import { alone } from "./carried";
import { Problem } from "./problem";
import { atLaptop, say } from "./words";
export { Problem, sentence } from "./problem";

const tokenKey = "lanewick.token";
export const token = {
  get: (): string => localStorage.getItem(tokenKey) ?? "",
  set: (value: string): void => localStorage.setItem(tokenKey, value),
};

async function read(answer: Response): Promise<unknown> {
  const text = await answer.text();
  const value: unknown = text ? JSON.parse(text) : null;
  if (answer.ok) return value;
  const problem = (value ?? {}) as { type?: string; detail?: string; field?: string };
  throw new Problem((problem.type ?? "").replace(/.*#/, ""), problem.detail ?? say("The server gave no reason."), problem.field ?? "", answer.status, value as Record<string, unknown>);
}

/** A laptop that sleeps gives no answer and no error for minutes: after this while it counts as away. */
const ANSWER_MOST_MS = 20000;
async function inTime(path: string, how: RequestInit): Promise<Response> {
  const end = new AbortController(), halt = (): void => end.abort(), { signal } = how;
  if (signal?.aborted) halt();
  const most = setTimeout(halt, ANSWER_MOST_MS);
  signal?.addEventListener("abort", halt);
  return fetch(path, { ...how, signal: end.signal }).finally(() => clearTimeout(most));
}

const BUSY_TRIES = 5, BUSY_S = 2;
/** A busy laptop has done nothing yet and says when to come again: the page does that by itself before it troubles a person. */
async function patiently(path: string, how: RequestInit): Promise<Response> {
  for (let left = BUSY_TRIES; ; left--) {
    const answer = await inTime(path, how);
    if (answer.status !== 503 || left === 0) return answer;
    await new Promise((go) => setTimeout(go, 1000 * (Number(answer.headers.get("Retry-After")) || BUSY_S)));
  }
}

export const away = (): string => say("The laptop that runs lanewick does not answer. Is it on, and is this phone on its Wi-Fi?");
export async function ask<T>(method: string, path: string, body?: unknown, stop?: AbortSignal): Promise<T> {
  if (alone()) return (await byItself(method, path, body, stop)) as T;
  const headers: Record<string, string> = {};
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (token.get()) headers["Authorization"] = `Bearer ${token.get()}`;
  let answer: Response;
  try {
    answer = await patiently(`/api/v1${path}`, { method, headers, body: body === undefined ? null : JSON.stringify(body), signal: stop ?? null });
  } catch (lost) {
    if (stop?.aborted) throw lost;
    if (answersItself(method, path)) return (await byItself(method, path, body, stop)) as T;
    throw new Problem("away", away());
  }
  /* The owner's rights at the laptop end by themselves; without them it is the laptop's own page again. */
  if (answer.status === 401 && token.get() && atLaptop()) {
    token.set("");
    return ask(method, path, body, stop);
  }
  return (await read(answer)) as T;
}

/** Bytes to look at or to print; a phone's token goes in a field, so the page fetches and opens them. */
export async function askFile(path: string, stop?: AbortSignal): Promise<Blob> {
  let answer: Response;
  try {
    answer = await patiently(`/api/v1${path}`, { headers: token.get() ? { Authorization: `Bearer ${token.get()}` } : {}, signal: stop ?? null });
  } catch (lost) {
    if (stop?.aborted) throw lost;
    throw new Problem("away", away());
  }
  if (!answer.ok) await read(answer);
  return answer.blob();
}

/** The words of an event stream as they come (WHATWG HTML, 9.2); fetched, because a phone's token goes in a field. */
export async function* askEvents(path: string, stop: AbortSignal): AsyncGenerator<{ event: string; data: string }> {
  const answer = await fetch(`/api/v1${path}`, { headers: token.get() ? { Authorization: `Bearer ${token.get()}` } : {}, signal: stop });
  if (!answer.ok || !answer.body) { await read(answer); return; }
  const bytes = answer.body.getReader(), words = new TextDecoder();
  for (let text = ""; ;) {
    const { done, value } = await bytes.read();
    if (done) return;
    text += words.decode(value, { stream: true });
    const parts = text.split("\n\n");
    text = parts.pop() ?? "";
    for (const part of parts) yield { event: /^event: (.*)$/m.exec(part)?.[1] ?? "", data: /^data: (.*)$/m.exec(part)?.[1] ?? "" };
  }
}
