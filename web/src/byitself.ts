// SPDX-License-Identifier: GPL-3.0-or-later
// What the single-file page answers without a laptop: figures and the climate of a place, by the core that it carries. The rest
// needs the program and says so.
import { core, coreMissing, type Core, type Value } from "./core";
import { Problem } from "./problem";
import { say } from "./words";

function climate(core: Core, query: URLSearchParams): Record<string, Value> {
  const number = (key: string): number | undefined => (query.has(key) ? Number(query.get(key)) : undefined);
  const given = { lat_deg: number("lat"), lon_deg: number("lon"), elev_m: number("elev") };
  return { lat_deg: given.lat_deg ?? null, lon_deg: given.lon_deg ?? null, ...core.run("climate", given) };
}

export async function byItself(method: string, path: string, body: unknown): Promise<unknown> {
  const here = await core();
  if (path === "") return { role: "alone" };
  if (!here) throw new Problem("away", coreMissing());
  const [place = "", query = ""] = path.split("?");
  if (method === "GET" && place === "/climate") return climate(here, new URLSearchParams(query));
  if (method === "GET" && place === "/figures") return here.figures;
  if (method === "POST" && place.startsWith("/figures/")) return here.run(place.slice("/figures/".length), body as Record<string, Value>);
  throw new Problem("away", say("This page has no laptop behind it, and this needs one. Cells, figures and the sun of a place work without."));
}
