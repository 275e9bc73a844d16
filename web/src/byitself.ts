// SPDX-License-Identifier: GPL-3.0-or-later
// What this device answers without the laptop, by the core in the page: figures, the climate of a place, and whole documents
// (here.ts). The rest needs the program and says so.
import { core, coreMissing, type Core, type Value } from "./core";
import type { Wish } from "./desk";
import { askHere } from "./here";
import { Problem } from "./problem";
import { say } from "./words";

const documents: Record<string, Wish> = { "/light/lane": "lane", "/light/search": "lane_search", "/pack/match": "pack", "/mast": "mast", "/mast/document": "lamp_mast", "/circuit": "circuit", "/ribbon": "ribbon" };
const place = (path: string): string => path.split("?")[0] ?? "";
/** Whether byItself() has an answer. */
export const answersItself = (method: string, path: string): boolean =>
  method === "POST" ? place(path) in documents || path.startsWith("/figures/") : method === "GET" && ["/climate", "/figures"].includes(place(path));

function climate(core: Core, query: URLSearchParams): Record<string, Value> {
  const number = (key: string): number | undefined => (query.has(key) ? Number(query.get(key)) : undefined);
  const given = { lat_deg: number("lat"), lon_deg: number("lon"), elev_m: number("elev") };
  return { lat_deg: given.lat_deg ?? null, lon_deg: given.lon_deg ?? null, ...core.run("climate", given) };
}

export async function byItself(method: string, path: string, body: unknown, stop?: AbortSignal): Promise<unknown> {
  if (path === "") return { role: "alone" };
  if (!answersItself(method, path)) throw new Problem("away", say("This page has no laptop behind it, and this needs one: printed sheets, the records of the workshop, names of places. The rest works without."));
  const wish = documents[place(path)];
  if (wish) return askHere(wish, body, stop);
  const here = await core();
  if (!here) throw new Problem("away", coreMissing());
  if (method === "POST") return here.run(path.slice("/figures/".length), body as Record<string, Value>);
  return place(path) === "/climate" ? climate(here, new URLSearchParams(path.split("?")[1] ?? "")) : here.figures;
}
