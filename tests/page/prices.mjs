// SPDX-License-Identifier: GPL-3.0-or-later
// The shelf of the workshop on a phone: a first part with its price, its true cost, two who change the same part, another money with
// its rate, and the prices in the plan's brief. usage: prices.mjs LANEWICK FOLDER-FOR-PICTURES
import { readFileSync } from "node:fs";
import { bothThemes, browse, check, chrome, end, pictures, serve } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const server = await serve(binary), picture = pictures(folder);
const { context, stop } = await browse(), page = await context.newPage(), complaints = [];
page.on("pageerror", (error) => complaints.push(String(error)));
page.on("dialog", (dialog) => dialog.accept());
const api = async (method, path, body) => (await fetch(`${server.base}/api/v1${path}`, { method, headers: body ? { "Content-Type": "application/json" } : {}, body: body && JSON.stringify(body) })).json();
const shelf = async () => Object.fromEntries((await api("GET", "/shelf")).parts.map((part) => [part.name, part]));
const field = (name) => page.getByLabel(name);
const press = (name) => page.getByRole("button", { name, exact: true }).click();
const seen = (words) => page.getByText(words).first().waitFor().then(() => check(true, words), () => check(false, `not seen: ${words}`));

const both = (name) => bothThemes(page, name, picture);

async function first() {
  await page.goto(`${server.base}/#/prices`);
  await seen("Nothing is on the shelf yet.");
  await press("Put something on the shelf");
  await field(/^Name/).fill("20 W panel");
  await field(/^Price of one/).fill("24 000");
  await press("Keep it");
  await seen("Tell the money of the price.");
  await field(/^Money/).fill("K");
  await field(/^Decimals of this money/).fill("0");
  await field(/^Shop/).fill("radio shop");
  await field(/^At hand/).fill("3");
  await both("prices-form");
  await press("Keep it");
  await seen("20 W panel is kept.");
  const panel = (await shelf())["20 W panel"];
  check(panel.at_hand === 3 && panel.prices[0].price === 24000 && panel.prices[0].currency === "K" && panel.prices[0].shop === "radio shop", JSON.stringify(panel));
  await press("Tell the wage of an hour");
  await field(/^Price of one/).fill("500");
  await press("Keep it");
  await seen("hour at the bench is kept.");
}

/* (100 + 20 + 6/60 x 500) / (1 - 0.375) = 272 */
async function trueCost() {
  await press("Put something on the shelf");
  await field(/^Name/).fill("reclaimed 18650");
  await field(/^Price of one/).fill("100");
  await page.getByText("What it takes to make it fit for use").click();
  await field(/^Minutes at the bench/).fill("6");
  await field(/^Used up for each piece/).fill("20");
  await field(/^Lost, of a hundred/).fill("37,5");
  await press("Keep it");
  await seen("one good piece: 272 K");
}

async function twoPhones() {
  await press("Change 20 W panel");
  await field(/^At hand/).fill("9");
  const { mark } = (await shelf())["20 W panel"];
  await api("POST", "/shelf", { name: "20 W panel", mark, set: { price: 26500, at_hand: 4 } });
  await press("Keep it");
  await seen("Somebody else has changed this part meanwhile");
  await seen("26,500 K".replace(",", "\u202f"));
  await both("prices-two-versions");
  await press("What I wrote counts");
  await press("Keep it");
  await seen("20 W panel is kept.");
  const panel = (await shelf())["20 W panel"];
  check(panel.at_hand === 9 && panel.prices[0].price === 26500, `only what was written here: ${JSON.stringify(panel)}`);
}

async function intoPlan() {
  const brief = JSON.parse(readFileSync(new URL("../../demo/nsungwi.json", import.meta.url), "utf8"));
  await api("POST", "/shelf", { name: "vented box, grey", currency: "USD", set: { price: "1.50" } });
  await page.evaluate((b) => {
    const kept = JSON.parse(localStorage.getItem("lanewick.page/1") ?? "{}");
    localStorage.setItem("lanewick.page/1", JSON.stringify({ ...kept, brief: b }));
  }, brief);
  await page.reload();
  await press("Use these prices in the plan");
  await seen("is told in USD, the brief counts in K");
  await api("POST", "/shelf", { name: "1 USD", currency: "K", set: { price: 2700 } });
  await press("Use these prices in the plan");
  await seen("1 was told in another money and changed by its rate.");
  await both("prices");
  const lines = await page.evaluate(() => JSON.parse(localStorage.getItem("lanewick.page/1")).brief.shelf.prices);
  const box = lines.find((line) => line.name === "vented box, grey"), panel = lines.find((line) => line.name === "20 W panel");
  check(box.price === 4050 && box.told_as.startsWith("USD 1.50; 1 USD = K 2 700") && panel.price === 26500, JSON.stringify(box));
}

async function removed() {
  await press("Change reclaimed 18650");
  await press("Take it off the shelf");
  await seen("reclaimed 18650 is off the shelf.");
  check(!("reclaimed 18650" in await shelf()), "it is gone");
}

try {
  for (const part of [first, trueCost, twoPhones, intoPlan, removed]) await part();
} catch (error) { check(false, String(error)); await picture(page, "prices-stopped"); }
check(complaints.length === 0, complaints.join("; "));
await stop();
await server.stop();
end();
