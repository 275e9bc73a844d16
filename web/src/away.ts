// SPDX-License-Identifier: GPL-3.0-or-later
// Service worker: keeps the page's own files, so that it opens when the laptop is out of reach. Fresh files come first;
// answers of the JSON interface are never kept, so no old number is taken for a new one.
import { comesLater, shelf } from "./visit";
declare const self: {
  addEventListener(kind: string, run: (event: never) => void): void;
  skipWaiting(): Promise<void>;
  clients: { claim(): Promise<void> };
};
declare const FILES: string[]; // written in by build.mjs
type Ends = Event & { waitUntil(done: Promise<unknown>): void };
type Asks = Ends & { request: Request; respondWith(answer: Promise<Response>): void };

self.addEventListener("install", (event: Ends) => {
  event.waitUntil(caches.open(shelf).then((kept) => kept.addAll(FILES)).then(() => self.skipWaiting()));
});

/* The page that brought it is served at once, not from its next opening on. */
self.addEventListener("activate", (event: Ends) => event.waitUntil(self.clients.claim()));

/* A sleeping laptop, or a phone at the edge of the Wi-Fi: no answer and no error for minutes. What is kept opens meanwhile, and a
 * fresh file that still comes is kept for the next time. */
const PATIENCE_MS = 4000, PATIENCE_LOST_MS = 300, LOST_FOR_MS = 15000;
let lostAt = -Infinity;

async function fetched(request: Request, kept: Cache): Promise<Response> {
  const answer = await fetch(request);
  if (answer.ok) await kept.put(request, answer.clone());
  lostAt = -Infinity;
  return answer;
}

async function fresh(request: Request, goesOn: (done: Promise<unknown>) => void): Promise<Response> {
  const kept = await caches.open(shelf), old = await kept.match(request), coming = fetched(request, kept);
  if (!old) return coming;
  const lost = Date.now() - lostAt < LOST_FOR_MS;
  const late = new Promise<null>((go) => setTimeout(() => go(null), lost ? PATIENCE_LOST_MS : PATIENCE_MS));
  goesOn(coming.catch(() => undefined));
  const first = await Promise.race([coming.catch(() => old), late]);
  if (!first) lostAt = Date.now();
  return first ?? old;
}

self.addEventListener("fetch", (event: Asks) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== location.origin || !(FILES.includes(pathname) || comesLater(pathname))) return;
  event.respondWith(fresh(event.request, (done) => event.waitUntil(done)));
});
export {};
