// SPDX-License-Identifier: GPL-3.0-or-later
// The core as the page loads it against the native program: descriptions word by word, every figure's example number by
// number, wrong input sentence by sentence. Two C libraries round sines and powers differently in the last digits.
// usage: node core.mjs LANEWICK
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { check, end } from "./browser.mjs";

const RELATIVE = 1e-9, ABSOLUTE = 1e-12;
/* Sums of single precision over a year of hours, printed to hundredths of a watt-hour. */
const SINGLE = { lamp_nights: 0.021 };
const binary = process.argv[2], build = dirname(binary);
const needs = createRequire(new URL("../../web/package.json", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "lw-core-"));
const source = new URL("../../web/src/core.ts", import.meta.url).pathname;
await needs("esbuild").build({ entryPoints: [source], outfile: join(folder, "core.mjs"), bundle: true, format: "esm", target: "es2022" });
const { open } = await import(pathToFileURL(join(folder, "core.mjs")).href);
rmSync(folder, { recursive: true });
const core = await open(readFileSync(join(build, "page/core.wasm")));

const said = JSON.parse(execFileSync(binary, ["figure", "--json"], { encoding: "utf8", maxBuffer: 1 << 24 }));
const round = (x) => (typeof x === "number" ? Number(x.toPrecision(12)) : x);
check(JSON.stringify(core.figures, (_, x) => round(x)) === JSON.stringify(said, (_, x) => round(x)), "the descriptions differ from those of the program");

let most = 0, numbers = 0;
function same(a, b, absolute = ABSOLUTE) {
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((x, i) => same(x, b[i], absolute));
  if (typeof a !== "number" || typeof b !== "number") return a === b;
  numbers++;
  const apart = Math.abs(a - b), size = Math.max(Math.abs(a), Math.abs(b));
  if (apart > absolute) most = Math.max(most, apart / size);
  return apart <= absolute || apart <= RELATIVE * size;
}
const typed = { flag: (t) => t === "yes", number: Number, integer: Number, numbers: (t) => t.split(",").map(Number), text: (t) => t, choice: (t) => t };
for (const figure of core.figures) {
  const values = {}, words = [];
  for (const [, key, quoted, plain] of figure.example.matchAll(/(\w+)=(?:"([^"]*)"|(\S+))/g)) {
    values[key] = typed[figure.inputs.find((input) => input.name === key).kind](quoted ?? plain);
    words.push(`${key}=${quoted ?? plain}`);
  }
  const theirs = JSON.parse(execFileSync(binary, ["figure", figure.name, ...words, "--json"], { encoding: "utf8" }));
  const ours = core.run(figure.name, values);
  check(JSON.stringify(Object.keys(ours)) === JSON.stringify(Object.keys(theirs)), `${figure.name}: outputs`);
  for (const key of Object.keys(theirs)) check(same(ours[key], theirs[key], key.endsWith("_wh_day") ? SINGLE[figure.name] : ABSOLUTE), `${figure.name} ${key}: program ${theirs[key]}, page ${ours[key]}`);
}
console.log(`${numbers} numbers of ${core.figures.length} figures; largest relative difference ${most.toExponential(1)}`);

function wrong(name, values, words) {
  const run = spawnSync(binary, ["figure", name, ...words, "--json"], { encoding: "utf8" });
  const theirs = JSON.parse(run.stdout || run.stderr).error;
  try {
    core.run(name, values);
    check(false, `${name} ${words}: no error in the page`);
  } catch (error) {
    check(error.message === theirs.message && error.field === theirs.field, `${name} ${words}: program "${theirs.message}", page "${error.message}"`);
  }
}
wrong("cell_verdict", { found_v: 42 }, ["found_v=42"]);
wrong("cell_verdict", { voltage_class: "nimh" }, ["voltage_class=nimh"]);
wrong("cell_verdict", { capacity: 2 }, ["capacity=2"]);
wrong("normal_quantile", {}, []);
wrong("normal_quantile", { probability: 2 }, ["probability=2"]);
wrong("cell_verdict", { capacity_ah: [1.9, 2], capacity_sd_ah: [0.1] }, ["capacity_ah=1.9,2", "capacity_sd_ah=0.1"]);
for (const values of [{ probability: "x" }, { probability: [1] }, { probability: NaN }, { probability: Infinity }]) {
  let told = "";
  try { core.run("normal_quantile", values); } catch (error) { told = error.field; }
  check(told === "probability", `normal_quantile ${JSON.stringify(values)}: field "${told}"`);
}
let told = "";
try { core.run("cell_verdict", { look: "x".repeat(9000) }); } catch (error) { told = error.message; }
check(/too long/.test(told), "a text beyond its room");
end();
