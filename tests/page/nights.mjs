// SPDX-License-Identifier: GPL-3.0-or-later
// One lamp's dark nights as the page computes them without the laptop, against the program: the first lamp of five planned briefs at
// five places (two hemispheres, the equator, high and cold, three kinds of cells and chargers). The plan's
// numbers, those of the figure in the program and those of the core in the page must be the same to the printed digits.
// usage: nights.mjs LANEWICK
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { check, end } from "./browser.mjs";
import { lampInputs } from "./one_lamp.mjs";

const binary = process.argv[2], build = dirname(binary);
const needs = createRequire(new URL("../../web/package.json", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "lw-nights-"));
const source = (name) => new URL(`../../web/src/${name}.ts`, import.meta.url).pathname;
await needs("esbuild").build({ entryPoints: [source("core")], outfile: join(folder, "core.mjs"), bundle: true, format: "esm", target: "es2022" });
const { open } = await import(pathToFileURL(join(folder, "core.mjs")).href);
rmSync(folder, { recursive: true });
const core = await open(readFileSync(join(build, "page/core.wasm")));

const run = (...words) => JSON.parse(execFileSync(binary, [...words, "--json"], { encoding: "utf8", maxBuffer: 1 << 25 }));
const typed = (values) => Object.entries(values).filter(([, v]) => v !== undefined && v !== null).map(([key, v]) => `${key}=${v}`);
/** As people see them. Energies are sums of single precision: compared to a part in a thousand. */
const ONE_NIGHT = 1 / 160 + 1e-9; /* in all the years: rounding may tip a night at the edge of dark */
const printed = (x) => (Array.isArray(x) ? x.map(printed).join(" ") : typeof x === "number" ? Number(x.toPrecision(3)).toString() : String(x));
const near = (a, b) => Math.abs(a - b) <= Math.max(0.02, 1e-3 * Math.abs(a));
const same = (what, ours, theirs) => check(printed(ours) === printed(theirs) || (/more|month|mean|nights/.test(what) && [ours].flat().every((x, i) => Math.abs(x - [theirs].flat()[i]) <= ONE_NIGHT)), `${what}: page ${printed(ours)}, program ${printed(theirs)}`);

let most = 0;
for (const name of ["nsungwi", "cold-plain", "monsoon-coast", "equator-school", "cyclone-harbour"]) {
  const brief = new URL(`../../demo/${name}.json`, import.meta.url).pathname;
  const plan = run("plan", brief), lamp = plan.lamps[0];
  const values = lampInputs(plan.brief, lamp.kind, lamp.size, { head_w: lamp.light.head_w, tilt_deg: lamp.tilt_deg, facing_deg: lamp.facing_deg, seed: plan.seed });
  const begun = performance.now(), ours = core.run("lamp_nights", values);
  most = Math.max(most, performance.now() - begun);
  const theirs = run("figure", "lamp_nights", ...typed(values));
  for (const key of Object.keys(theirs)) {
    if (key.endsWith("_wh_day")) check(theirs[key].every((wh, m) => near(wh, ours[key][m])), `${name} ${key}: page ${ours[key]}, program ${theirs[key]}`);
    else same(`${name} ${key}`, ours[key], theirs[key]);
  }
  same(`${name}, mean of the plan`, ours.dark_nights, lamp.nights.dark_per_year.mean);
  same(`${name}, low end of the plan`, ours.dark_low, lamp.nights.dark_per_year.low);
  same(`${name}, high end of the plan`, ours.dark_high, lamp.nights.dark_per_year.high);
  same(`${name}, months of the plan`, ours.dark_by_month, lamp.nights.by_month);
  same(`${name}, what limits`, [ours.limit_month, ours.limit], [lamp.limits.month, lamp.limits.what]);
  same(`${name}, a quarter more panel`, ours.dark_more_panel, lamp.limits.more_panel.dark_per_year.mean);
  same(`${name}, a quarter more pack`, ours.dark_more_pack, lamp.limits.more_pack.dark_per_year.mean);
  check(lamp.energy.every((month, m) => near(month.panel_wh_day, ours.panel_wh_day[m])), `${name}: energy of the plan`);
  /* Other sizes, as the sliders ask; more cells never make more dark nights. */
  const nights = (parallel) => core.run("lamp_nights", { ...values, parallel }).dark_nights;
  check(nights(1) >= nights(8), `${name}: more cells make more dark nights`);
}
console.log(`five places; the longest took ${Math.round(most)} ms in the page's core`);
const { brief: shelf, lamps: [first] } = run("plan", new URL("../../demo/nsungwi.json", import.meta.url).pathname);
let refused = "";
try { core.run("lamp_nights", { ...lampInputs(shelf, first.kind, first.size), end_v_per_cell: 4.4 }); } catch (error) { refused = `${error.kind} ${error.message}`; }
check(/^refused .*4\.25 V/.test(refused), `charging beyond the limit of the cells is refused: "${refused}"`);
end();
