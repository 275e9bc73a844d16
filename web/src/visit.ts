// SPDX-License-Identifier: GPL-3.0-or-later
// What one visit fetched is kept for the time without the laptop. The service worker stands only after the first screen: what came
// before it - the language, the core - is put on its shelf here, so that a page that was opened once works out of reach.

export const shelf = "page-1";
/** Kept when they come; which of them are wanted depends on the person. */
export const comesLater = (path: string): boolean => path === "/core.wasm" || path === "/outlines.txt" || path.startsWith("/words/");

export async function keepVisit(): Promise<void> {
  await navigator.serviceWorker.ready;
  const kept = await caches.open(shelf);
  for (const { name } of performance.getEntriesByType("resource")) {
    const { pathname, origin } = new URL(name);
    if (origin === location.origin && comesLater(pathname) && !(await kept.match(pathname))) await kept.add(pathname).catch(() => undefined);
  }
}
