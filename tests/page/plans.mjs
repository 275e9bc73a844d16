// SPDX-License-Identifier: GPL-3.0-or-later
// Whole plans by the core in the page against the program's: the demo's briefs from brief to plan, then lane, masts, pack, wiring,
// mast and ribbon as the page asks them, wrong and refused documents, and the bound of memory.
// usage: node plans.mjs LANEWICK [--long]     --long: every brief of the demo, and the search of masts with a brief
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { check, end, serve } from "./browser.mjs";

/* The nights use no function of the C library, so that both simulate the same to the last bit; the rest differs in the last digits of
   sines and exponentials. */
const RELATIVE = 1e-6;

const binary = process.argv[2], long = process.argv.includes("--long"), demo = new URL("../../demo/", import.meta.url);
const needs = createRequire(new URL("../../web/package.json", import.meta.url)), folder = mkdtempSync(join(tmpdir(), "lw-plans-"));
const source = (name) => fileURLToPath(new URL(`../../web/src/${name}`, import.meta.url));
await needs("esbuild").build({ entryPoints: ["desk.ts", "running.ts", "asks.ts", "mastask.ts", "ribbon.tsx", "slips.ts"].map(source), outdir: folder, outExtension: { ".js": ".mjs" }, bundle: true, jsx: "automatic", jsxImportSource: "preact", format: "esm", target: "es2022" });
const load = (name) => import(pathToFileURL(join(folder, `${name}.mjs`)).href);
const { Desk } = await load("desk"), { begin } = await load("running"), asks = await load("asks"), { mastOf, mastQuestion, windInto } = await load("mastask"), { story } = await load("ribbon"), { uuid7 } = await load("slips");
rmSync(folder, { recursive: true });
const core = await WebAssembly.compile(readFileSync(join(dirname(binary), "page/core.wasm")));
const read = (name) => JSON.parse(readFileSync(new URL(name, demo), "utf8"));
const most = Number(/LW_DESK_DOOR_BYTES = (\d+) << 20/.exec(readFileSync(new URL("../../wasm/desk_door.h", import.meta.url), "utf8"))[1]) * 2 ** 20;

let worst = 0;
function agree(a, b) {
  const share = a === b ? 0 : Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
  worst = Math.max(worst, share);
  return share <= RELATIVE;
}
/** Paths at which two documents differ. */
function differ(a, b, path = "") {
  if (typeof a === "number" && typeof b === "number") return agree(a, b) ? [] : [`${path}: program ${a}, page ${b}`];
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b ? [] : [`${path}: program ${JSON.stringify(a)}, page ${JSON.stringify(b)}`];
  if (Object.keys(a).join() !== Object.keys(b).join()) return [`${path}: program has ${Object.keys(a)}, page ${Object.keys(b)}`];
  return Object.keys(a).flatMap((key) => differ(a[key], b[key], `${path}.${key}`));
}
function same(what, theirs, ours) {
  const wrong = differ(theirs, ours);
  check(wrong.length === 0, `${what}: ${wrong.length} differ: ${wrong.slice(0, 4).join("; ")}`);
}
const program = (...words) => JSON.parse(execFileSync(binary, [...words, "--json"], { encoding: "utf8", maxBuffer: 1 << 26 }));

/** The mast stage, while nothing is typed, asks with the program's own document of the planned mast and answers what `lanewick plan` and
    `lanewick mast` answer, for each kind of lamp. Its wiring stage asks a circuit that is one, whatever panel the plan chose. */
function asPlanned(name, desk, brief, plan, told) {
  const known = { brief, plan: { value: plan }, lane: asks.firstLane, wiringAsk: asks.firstWiring };
  for (const lamp of plan.lamps.filter(({ kind }, i, all) => all.findIndex((other) => other.kind === kind) === i)) {
    const document = desk.run("lamp_mast", mastQuestion({ ...known, mastTyped: { kind: lamp.kind } }, {})), ours = desk.run("mast", document);
    same(`${name}, mast of ${lamp.kind} as a document`, program("mast", file(name), "--document", lamp.kind), document);
    for (const planned of [lamp.mast, told.masts.find((mast) => mast.lamp === lamp.kind)]) same(`${name}, mast of ${lamp.kind}`, Object.fromEntries(Object.keys(ours).map((key) => [key, planned[key]])), ours);
  }
  const judged = (typed) => desk.run("mast", desk.run("lamp_mast", mastQuestion({ ...known, mastTyped: {} }, typed)));
  const calm = judged({ wind: null }), more = judged({ terrain: brief.place.wind.speed_is === "gust_design" ? "B" : "IV" });
  check(calm.verdict === "not_checked", `${name}: without a wind the mast is ${calm.verdict}`);
  check(more.peak_pressure_pa < plan.lamps[0].mast.peak_pressure_pa, `${name}: in a town or among trees the wind is weaker: ${more.peak_pressure_pa} Pa`);
  check(desk.run("circuit", asks.circuitOf(asks.wiringOf(known))).conditions !== undefined, `${name}: the planned panel as a circuit`);
}

const file = (name) => fileURLToPath(new URL(name, demo));
const briefs = readdirSync(demo).filter((name) => name.endsWith(".json") && read(name).format === "lanewick.brief/1");
for (const name of long ? briefs : ["nsungwi.json", "boat-yard.json", "cyclone-harbour.json"]) {
  const progress = [], begun = performance.now(), desk = new Desk(await begin(core, (done) => progress.push(done)));
  const ours = desk.run("plan", read(name)), took = performance.now() - begun;
  const theirs = program("plan", file(name));
  same(name, theirs, ours);
  check(ours.lamps.length > 0 && progress.at(-1) === 1 && progress.every((done, i) => i === 0 || done >= progress[i - 1]), `${name}: progress goes up to the end: ${progress}`);
  asPlanned(name, desk, read(name), ours, program("mast", file(name)));
  console.log(`${name}: ${(took / 1000).toFixed(1)} s, ${Math.round(desk.memory / 2 ** 20)} MB`);
}
if (long) {
  const desk = new Desk(await begin(core));
  same("masts with a brief", program("light", "search", file("nsungwi-lane.json")), desk.run("lane_search", read("nsungwi-lane.json")));
}
console.log(`largest relative difference ${worst.toExponential(1)}`);

/* What the page asks of the laptop, both ways. */
const server = await serve(binary), door = await begin(core), desk = new Desk(door);
const here = (wish, document) => { try { return desk.run(wish, document); } catch (error) { return { kind: error.kind, field: error.field, message: error.message }; } };
async function there(path, document) {
  const answer = await fetch(`${server.base}/api/v1${path}`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(document) }), value = await answer.json();
  return answer.ok ? value : { kind: value.type.replace(/.*#/, ""), field: value.field ?? "", message: value.detail };
}
const lane = { ...asks.firstLane, side: "staggered" }, bare = mastQuestion({ brief: null, lane, mastTyped: {} }, { height: 5, panel: 0.3, wind: 28 }), mast = desk.run("lamp_mast", bare);
const cells = asks.cellsOf(Array.from({ length: 18 }, (_, i) => `N-${i}; ${1.6 + 0.045 * ((i * 7) % 13)}; ${80 + i}`).join("\n"), "4v2");
const size = { kind: "path", panel: "20 W poly", panels: 1, parallel: 3, series: 3 }, brief = read("nsungwi.json");
const planned = new Desk(await begin(core)).run("plan", read("boat-yard.json")), lamp = planned.lamps[0];
const questions = [
  ["lane", "/light/lane", { format: "lanewick.lane/1", field: { length_m: 60, width_m: 2.5 }, head: { lumens: 800, cos_power: 1 }, masts: asks.mastsOf(lane), class: "P6" }],
  ["lane", "/light/lane", { format: "lanewick.lane/1", field: { length_m: -1, width_m: 2.5 }, head: { lumens: 800, cos_power: 1 }, masts: asks.mastsOf(lane) }],
  ["lane", "/light/lane", read("../docs/examples/bent-lane.json")],
  ["lane", "/light/lane", read("../docs/examples/market-square.json")],
  ["lane_search", "/light/search", read("nsungwi-path.json")],
  ["pack", "/pack/match", { series: 3, parallel: 4, packs: 1, cells }],
  ["pack", "/pack/match", { series: 3, parallel: 4, packs: 9, cells }],
  ["lamp_mast", "/mast/document", bare],
  ["lamp_mast", "/mast/document", { brief, instead: { no_wind: true, wall_mm: 4.5, no_collar: true, people_below: false } }],
  ["lamp_mast", "/mast/document", { brief, instead: { wind: 28 } }],
  ["mast", "/mast", mast],
  ["mast", "/mast", { ...mast, colour: "grün" }],
  ["circuit", "/circuit", asks.circuitOf({ series: 3, parallel: 4, voc: 21.6, isc: 0.63, fuse: 3.15, cells: 36 })],
  ["circuit", "/circuit", asks.circuitOf({ series: 3, parallel: 4, voc: 21.6, isc: 0.63, fuse: "no number", cells: 36 })],
  ["ribbon", "/ribbon", { brief: planned.brief, kind: lamp.kind, seed: planned.seed, ...Object.fromEntries(["panel", "panels", "parallel", "cell", "series", "charger", "driver", "trimmed"].map((key) => [key, lamp.size[key]])) }],
  ["ribbon", "/ribbon", { brief, ...size, panel: "none such" }],
  ["circuit", "/circuit", null],
];
for (const [wish, path, document] of questions) {
  const theirs = await there(path, document), ours = here(wish, document);
  if (document !== null) same(`${path} ${JSON.stringify(document).slice(0, 60)}`, theirs, ours);
  else check(ours.kind !== undefined, `no document: ${JSON.stringify(ours)}`);
}
await server.stop();

/* The lane of the light stage as the plan's wish: what else the brief wishes of its lane stays, as its other lamps. */
const lit = read("nsungwi-lane.json").want.lane, others = { also: [{ lamp: "jetty", x_m: 3, y_m: -0.5 }], maintenance: 0.7, aim: "masts" };
const wish = asks.laneWish({ ...lane, length_m: 90 }, { ...lit, ...others, average_lx: 3, masts: 9 });
check(wish.length_m === 90 && wish.class === lane.class && wish.average_lx === undefined && wish.masts === undefined && Object.entries(others).every(([key, value]) => wish[key] === value), `the wish for the lane: ${JSON.stringify(wish)}`);
check(asks.laneWish({ ...lane, field: { line: [[0, 0], [30, 0], [60, 20]] } }, lit).length_m === undefined, "a bent lane has no length besides");

/* What was typed about the mast and goes into the brief makes the mast that was tried; a plate and a measured ground leave nothing behind. */
const plate = read("../tests/briefs/plate.json"), onPlate = { ...plate, place: { ...plate.place, wind: { ...plate.place.wind, topography: 1.2, return_years: 25 } }, build: { mast: { ...plate.build.mast, soil: "other", soil_pa_per_m: 20000, bearing_pa: 80000, block_m: 0.9, grade: "8.8" } } };
for (const typed of [{ collar: 0.5 }, { soil: "gravel", people: true }, { wind: 31, terrain: "III", height: 3.5, soil: "rock", collar: 0.4 }, { wind: 25, is: "gust_design", terrain: "C" }]) {
  const known = { brief: onPlate, lane, mastTyped: typed }, own = desk.run("lamp_mast", mastQuestion(known, {})), tried = desk.run("lamp_mast", mastQuestion(known, typed));
  const next = windInto(onPlate, typed, mastOf({ ...known, mastMade: { own, document: tried } }));
  same(`into the brief: ${JSON.stringify(typed)}`, tried, here("lamp_mast", mastQuestion({ ...known, brief: next }, {})));
}

/* A line of the search keeps its promise when it is taken: places, tilt, height, side and light go along. */
for (const [length_m, width_m, wanted] of [[60, 2.5, "P6"], [45, 4, "P4"]]) {
  const wish = { format: "lanewick.lane-wish/1", length_m, width_m, class: wanted, heights_m: [3, 4, 5], most_masts: 8 }, from = { ...asks.firstLane, length_m, width_m, class: wanted };
  const taken = desk.run("lane_search", wish).options.map((option) => asks.takenInto(from, option));
  const met = taken.filter((a) => desk.run("lane", { format: "lanewick.lane/1", field: { length_m, width_m }, head: { lumens: a.lumens, cos_power: 1 }, masts: asks.mastsOf(a), class: wanted }).wanted_class_met);
  check(taken.length > 3 && met.length === taken.length, `${length_m} m, ${wanted}: ${met.length} of ${taken.length} lines meet it when taken`);
}
/* Bent lanes and squares, too; round a square, either way, the page spreads masts as the search stands them. */
const ell = [[0, 0], [20, 0], [20, 8], [12, 8], [12, 14], [0, 14]];
for (const [name, ground, field] of [["bent", { line: [[0, 0], [28, 0], [44, 9]], width_m: 3 }, { line: [[0, 0], [28, 0], [44, 9]] }], ["square", { polygon: ell }, { polygon: ell }], ["square, clockwise", { polygon: ell.toReversed() }, { polygon: ell.toReversed() }]]) {
  const from = { ...asks.firstLane, width_m: 3, field, class: "P5" }, options = desk.run("lane_search", { format: "lanewick.lane-wish/1", ...ground, class: "P5", heights_m: [4], tilts_deg: [20], fewest_masts: 4, most_masts: 6 }).options;
  const taken = options.map((option) => asks.takenInto(from, option));
  const met = taken.filter((a) => desk.run("lane", { format: "lanewick.lane/1", field: ground, head: { lumens: a.lumens }, masts: asks.mastsOf(a), class: "P5" }).wanted_class_met);
  check(taken.length > 1 && met.length === taken.length, `${name}: ${met.length} of ${taken.length} lines meet P5 when taken`);
  if (field.polygon) check(taken.every((a) => a.at === undefined), `${name}: spread evenly, masts stand as the search has them`);
}
/* Any panel that the wiring form takes is one of silicon cells: 0.5 to 0.75 V each, open (handbooks of photovoltaics). */
const panels = [1, 1.5, 3, 7.3, 12, 21.6, 45, 60].map((voc) => here("circuit", asks.circuitOf(asks.wiringOf({ plan: undefined, wiringAsk: { voc } }))));
check(panels.every((answer) => answer.conditions), `panels of 1 to 60 V: ${JSON.stringify(panels.filter((answer) => !answer.conditions))}`);

/* At 70 degrees north the sun stays up in June (any almanac: from 17 May to 27 July): a day without a night, and no dusk to tell. */
const { horizon_deg: _hills, ...ground } = planned.brief.place;
const north = desk.run("ribbon", { brief: { ...planned.brief, place: { ...ground, lat_deg: 70, lon_deg: 25 } }, kind: lamp.kind, seed: 1, ...Object.fromEntries(["panel", "panels", "parallel", "cell", "series", "charger", "driver", "trimmed"].map((key) => [key, lamp.size[key]])) });
check(/^20 June: no night/.test(story(north, 170, north.shown[0])) && /^Night of 1 January: dusk \d/.test(story(north, 0, north.shown[0])), `the nights of the north: ${story(north, 170, north.shown[0])}; ${story(north, 0, north.shown[0])}`);

/* What is wrong with a brief is told in the same words; what must not be built is refused. */
const native = (document) => {
  try {
    execFileSync(binary, ["plan", "-", "--json"], { input: JSON.stringify(document), encoding: "utf8", stdio: ["pipe", "pipe", "pipe"] });
    return "";
  } catch (error) { return error.stderr + error.stdout; }
};
for (const [what, wrong] of [
  ["a number out of range", { ...brief, place: { ...brief.place, lat_deg: 91 } }],
  ["an unknown key", { ...brief, shelff: [] }],
  ["a text for a number", { ...brief, want: { ...brief.want, dark_nights_per_year: "five" } }],
  ["another document", { format: "lanewick.mast/1" }],
  ["no object", [1, 2, 3]],
  ["letters of any script", { ...brief, want: { ...brief.want, lamps: [{ name: "ɓ 灯", count: 1, lumens: 1e9 }] } }],
]) {
  const told = here("plan", wrong);
  check(told.kind === "wrong-input" && native(wrong).includes(JSON.stringify(told.message)), `${what}: page "${told.message}", program "${native(wrong)}"`);
}
const refused = here("plan", { ...brief, build: { ...brief.build, fuse: false } });
check(refused.refused?.length > 0 && refused.lamps === undefined, `no fuse: ${JSON.stringify(refused).slice(0, 200)}`);
check(/crate/.test(here("plan", { ...brief, shelf: { ...brief.shelf, cells: [{ crate: "A", class: "4v2", price: 1 }] } }).message), "a crate of the store is not here, and the page says so");
check(here("plan", { ...brief, place: { ...brief.place, weather_file: "/etc/passwd" } }).field === "place.weather_file", "a file of the device cannot be named");
let deep = 0;
for (let i = 0; i < 3000; i++) deep = [deep];
const nested = here("plan", { ...brief, deep });
check(nested.kind === "internal", `nested too deeply: ${JSON.stringify(nested)}`);
check(here("plan", { ...brief, name: "long ".repeat(most / 5) }).kind === "internal", "a text larger than the memory");
check(here("plan", { ...brief, name: "a\0b" }).kind === "wrong-input", "a zero in a text");
same("after all that", planned, here("plan", read("boat-yard.json")));

/* Ids of one device sort in the order of writing, also in one millisecond and when the clock is put back (RFC 9562, 6.2). */
const now = Date.now(), ids = Array.from({ length: 9000 }, (_, i) => uuid7(i < 4500 ? now : now - 86400000));
check(ids.every((id, i) => /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id) && (i === 0 || id > ids[i - 1])), "ids sort by their time");
check(Math.abs(parseInt(ids[0].replaceAll("-", "").slice(0, 12), 16) - now) < 1000, `an id begins with the milliseconds of the clock: ${ids[0]}`);

check(desk.memory <= most, `${desk.memory} bytes of memory; the most is ${most}`);
let grown = true;
try { door.memory.grow((most - desk.memory) / 65536 + 1); } catch { grown = false; }
check(!grown, "the memory cannot grow beyond its bound");
console.log(`${Math.round(desk.memory / 2 ** 20)} MB at the end, ${most / 2 ** 20} MB at most`);
end();
