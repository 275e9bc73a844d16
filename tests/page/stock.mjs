// SPDX-License-Identifier: GPL-3.0-or-later
// A plan that takes the tested cells of a crate: its packs are reserved all or none, somebody else is quicker, cells are given back;
// what the laptop computes, told by events, asked for where no events come through, and stopped from another device.
// usage: stock.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { accessible, bothThemes, browse, check, chrome, end, passing, pictures, serve, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const server = await serve(binary), picture = pictures(folder);
const { context, stop } = await browse(), page = await context.newPage(), complaints = [], asked = [];
page.on("pageerror", (error) => complaints.push(String(error)));
page.on("request", (request) => asked.push(`${request.method()} ${new URL(request.url()).pathname}`));
page.on("dialog", (dialog) => dialog.accept());
const crate = (words, input = "") => {
  const done = spawnSync(binary, ["crate", ...words, "--store", server.store], { encoding: "utf8", input });
  check(done.status === 0, `crate ${words.join(" ")}: ${done.stdout}${done.stderr}`);
};
const api = async (method, path, body) => (await fetch(`${server.base}/api/v1${path}`, { method, headers: body ? { "Content-Type": "application/json" } : {}, body: body && JSON.stringify(body) })).json();
const cells = async () => (await api("GET", "/crates/K/cells?limit=500")).cells;
const kept = () => page.evaluate(() => JSON.parse(localStorage.getItem("lanewick.page/1")));
const both = (name) => bothThemes(page, name, picture);

const brief = JSON.parse(readFileSync(new URL("../briefs/crate-of-store.json", import.meta.url), "utf8"));
Object.assign(brief.want, { lamps: [{ name: "path lamp", count: 1, lumens: 110 }] });
brief.shelf.cells = [{ name: "counted", class: "4v2", verdict: "sound", capacity_ah: 1.9, count: 24, price: 0.4 }];

/* Twelve cells, as the bench leaves them: capacity off a charger, two loads, a day after the charge. */
function bench() {
  crate(["new", "K", "--name", "kitchen table"]);
  crate(["import", "K", "-"], `code,volts,class,rated\n${Array.from({ length: 12 }, (_, i) => `K${i},3.6,4v2,2.3\n`).join("")}`);
  for (let i = 0; i < 12; i++) {
    crate(["test", `K${i}`, "--method", "charger", "--capacity", "1.95", "--current", "0.4"]);
    crate(["test", `K${i}`, "--method", "two_pulse", "--volts", "3.97,3.86", "--amps", "0.41,2.03"]);
    crate(["test", `K${i}`, "--method", "hold", "--volts", "4.13"]);
  }
  crate(["judge", "K"]);
}

async function choose() {
  await page.goto(`${server.base}/#/place`);
  await page.evaluate((b) => localStorage.setItem("lanewick.page/1", JSON.stringify({ brief: b })), brief);
  await page.reload();
  await page.goto(`${server.base}/#/pack`);
  await page.getByText("12 free cells of class 4v2").click();
  await page.getByRole("button", { name: "Plan with these cells" }).click();
  await page.getByRole("heading", { name: "Packs of the plan" }).waitFor();
  await until(async () => (await kept()).plan.value.lamps[0].pack.groups.flat().length > 0, "the plan is kept");
  const { plan, brief: now } = await kept();
  check(now.shelf.cells[0].crate === "K" && now.pack === undefined, JSON.stringify(now.shelf.cells));
  check(plan.value.lamps[0].pack.groups.flat().every((code) => /^K\d+$/.test(code)), JSON.stringify(plan.value.lamps[0].pack));
  check(asked.some((one) => /GET .*\/events$/.test(one)), "the plan's progress came as events");
  await both("stock-plan");
  await page.goto(`${server.base}/#/power`);
  await page.waitForSelector("svg.ribbon");
  await both("stock-power");
  /* The laptop goes: the plan follows a change all the same, with the cells of the crate as they were; then the laptop makes it again. */
  const wished = page.getByLabel("Dark nights that can be borne").first(), before = await wished.inputValue(), there = /\/api\//;
  await context.route(there, (route) => route.abort());
  await wished.fill("11");
  await page.getByText("Made on this device by lanewick").waitFor();
  check((await kept()).plan.value.lamps[0].pack.groups.flat().every((code) => /^K\d+$/.test(code)), "a plan without the laptop takes the crate's cells");
  await both("stock-here");
  await context.unroute(there);
  await wished.fill(before);
  await page.getByText("Made on this device by lanewick").waitFor({ state: "hidden" });
  await page.goto(`${server.base}/#/pack`);
}

async function reserve() {
  const named = (await kept()).plan.value.lamps[0].pack;
  await page.getByRole("button", { name: `Reserve these ${named.groups.flat().length} cells` }).click();
  await page.getByText(`${named.groups.flat().length} cells are reserved, in the packs ${named.code}`).waitFor();
  const packed = (await cells()).filter((cell) => cell.pack === named.code).map((cell) => cell.code).sort();
  check(packed.join() === named.groups.flat().sort().join(), `reserved in the store: ${packed}`);
  await page.getByText("1 pack of the workshop").click();
  await both("stock-reserved");
  /* the laptop is asked anew and has forgotten the job: the same plan, with the cells that are reserved now */
  const before = (await kept()).plan.value;
  await fetch(`${server.base}/api/v1/jobs/${before.job}`, { method: "DELETE" });
  await page.goto(`${server.base}/#/sheets`);
  await until(async () => (await kept()).plan.value.job !== before.job, "the forgotten plan is made once more");
  check(JSON.stringify((await kept()).plan.value.lamps[0].pack.groups) === JSON.stringify(named.groups), "with the very same cells");
  await page.goto(`${server.base}/#/pack`);
  await page.getByRole("button", { name: "Give the cells back" }).click();
  await page.getByText("cells are free again").waitFor();
  check((await cells()).every((cell) => !cell.pack), "all cells are free again");
  await until(async () => (await kept()).plan.value.seed === 2, "the plan is made anew");
  check((await kept()).plan.value.lamps[0].pack.code !== named.code, "its pack has another code");
}

/* Another device takes cells of this plan first: nothing is reserved here, and each lost cell is told with its new pack. */
async function quicker() {
  const named = (await kept()).plan.value.lamps[0].pack.groups.flat();
  crate(["use", "K", "--series", "3", "--parallel", "1", "--pack", "MARKET"]);
  const lost = (await cells()).filter((cell) => cell.pack === "MARKET" && named.includes(cell.code));
  await page.getByRole("button", { name: /^Reserve these/ }).click();
  await page.getByText("Nothing is reserved").waitFor();
  await until(async () => (await page.locator("[aria-label='Cells that are not free'] li").count()) === lost.length, `${lost.length} lost cells are named`);
  check((await page.textContent("[aria-label='Cells that are not free']")).includes("sits in pack MARKET"), "with the pack that they sit in");
  check((await cells()).filter((cell) => cell.pack).length === 3, "and nothing else is reserved");
  await both("stock-conflict");
  await page.getByText("1 pack of the workshop").click();
  await page.getByRole("button", { name: "Take apart" }).click();
  await until(async () => (await cells()).every((cell) => !cell.pack), "the other pack is taken apart");
}

/* Jobs of whichever device: told as they go, stopped from here; the first screen of the other one hears of it. */
async function work() {
  const long = JSON.parse(readFileSync(new URL("../briefs/long.json", import.meta.url), "utf8"));
  await page.evaluate((b) => localStorage.setItem("lanewick.page/1", JSON.stringify({ brief: b })), long);
  await page.reload();
  await page.goto(`${server.base}/#/power`);
  const other = await context.newPage(); /* it stands ready, so that the plan is still under way when it looks */
  await other.goto(`${server.base}/#/plans`);
  await other.waitForSelector("main h1");
  await page.bringToFront();
  const progress = await passing(page, "progress");
  await page.getByRole("button", { name: "Make the plan" }).click();
  check(await progress(), "the plan is under way");
  await other.goto(`${server.base}/#/jobs`);
  const row = other.locator(".jobs li", { hasText: "forty lamps" });
  await row.getByRole("button", { name: "Stop" }).waitFor();
  await until(async () => Number(await row.locator("progress").getAttribute("value")) > 0, "the other device sees the progress");
  await row.getByRole("button", { name: "Stop" }).click();
  await row.getByText("stopped").waitFor();
  await page.getByText("The plan was stopped, here or at another device.").waitFor();
  await other.close();
  /* no stream comes through: the page asks from time to time instead */
  await context.route("**/events", (route) => route.abort());
  await page.evaluate((b) => localStorage.setItem("lanewick.page/1", JSON.stringify({ brief: b })), brief);
  await page.reload();
  await page.getByRole("button", { name: "Make the plan" }).click();
  await page.waitForSelector("section[aria-label='The plan']");
  await context.unroute("**/events");
  await page.goto(`${server.base}/#/jobs`);
  await page.getByText("lamps from a crate of the store").first().waitFor();
  await both("jobs");
  await page.getByRole("button", { name: "Open this plan" }).first().click();
  await page.waitForSelector("section[aria-label='The plan']");
}

/* Out of the laptop's reach before the core came: the page says what is missing and for how long, and never blames the browser wrongly. */
async function coreLess() {
  const counted = [{ name: "counted", class: "4v2", verdict: "sound", capacity_ah: 1.9, count: 24, price: 0.4 }], aside = /core\.wasm|\/api\//;
  for (const broken of [false, true]) {
    const away = await browse({ serviceWorkers: "block" }), lone = await away.context.newPage();
    try {
      await away.context.route(aside, (route) => (broken && !route.request().url().includes("/api/") ? route.fulfill({ body: "no core", contentType: "application/wasm" }) : route.abort()));
      await away.context.addInitScript((b) => localStorage.setItem("lanewick.page/1", JSON.stringify({ brief: b })), { ...brief, shelf: { ...brief.shelf, cells: counted } });
      await lone.goto(`${server.base}/#/power`);
      await lone.getByRole("button", { name: "Make the plan" }).click();
      await lone.getByText(broken ? "This browser cannot run the core of the page" : "It comes by itself when the laptop is next in reach").waitFor();
      check(true, "what is missing is told");
      if (broken) continue;
      await accessible(lone, "core-missing");
      await away.context.unroute(aside);
      await away.context.route(/\/api\//, (route) => route.abort());
      await lone.evaluate(() => dispatchEvent(new Event("online")));
      await lone.getByText("Made on this device by lanewick").waitFor();
    } finally { await away.stop(); }
  }
}

bench();
for (const part of [choose, reserve, quicker, work, coreLess]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${error.message.slice(0, 400)}`); await page.screenshot({ path: `${folder}/fault-stock-${part.name}.png`, fullPage: true }); }
}
check(complaints.length === 0, `the browser complains: ${[...new Set(complaints)].join("; ")}`);
await stop();
await server.stop();
end();
