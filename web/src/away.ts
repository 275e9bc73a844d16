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
type Asks = Event & { request: Request; respondWith(answer: Promise<Response>): void };

self.addEventListener("install", (event: Ends) => {
  event.waitUntil(caches.open(shelf).then((kept) => kept.addAll(FILES)).then(() => self.skipWaiting()));
});

/* The page that brought it is served at once, not from its next opening on. */
self.addEventListener("activate", (event: Ends) => event.waitUntil(self.clients.claim()));

async function fresh(request: Request): Promise<Response> {
  const kept = await caches.open(shelf);
  try {
    const answer = await fetch(request);
    if (answer.ok) await kept.put(request, answer.clone());
    return answer;
  } catch (lost) {
    const old = await kept.match(request);
    if (old) return old;
    throw lost;
  }
}

self.addEventListener("fetch", (event: Asks) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method === "GET" && origin === location.origin && (FILES.includes(pathname) || comesLater(pathname))) event.respondWith(fresh(event.request));
});
export {};
