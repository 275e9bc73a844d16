// SPDX-License-Identifier: GPL-3.0-or-later
// The page in the person's language: that of the browser first, then the chosen one, kept; without connection too.
// usage: words.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { accessible, browse, check, chrome, comes, end, fits, pictures, serve, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) {
  console.log("There is no Chromium here: skipped.");
  process.exit(77);
}
const server = await serve(binary);
const { context, stop } = await browse({ locale: "sw-TZ" });
const page = await context.newPage();
const picture = pictures(folder);
const tongue = () => page.getAttribute("html", "lang");
const catalogue = async (code) => (await fetch(`${server.base}/words/${code}.json`)).json();

/** The texts of a figure and what its core refuses: the page says them as the program does, with the language's decimal sign. */
async function figure(code, name) {
  const parts = await Promise.all(["figures", `${code}-figures`, "labels", `${code}-labels`].map(async (part) => (code === "en" ? [] : catalogue(part))));
  const label = (text) => (code === "en" ? text : parts[3][parts[2].indexOf(text)]);
  const english = (await (await fetch(`${server.base}/api/v1/figures`)).json()).find((one) => one.name === "fuse").summary;
  const summary = code === "en" ? english : parts[1][parts[0].indexOf(english)];
  await page.evaluate(() => { location.hash = "#/figures/fuse"; });
  const reads = (where, text) => comes(async () => (await page.locator(where).first().textContent()) === text);
  check(await reads("p.lead", summary), `${name}: the figure says ${await page.textContent("p.lead")}, not ${summary}`);
  check(await reads("main h1", label("Fuse")), `${name}: its title is ${await page.textContent("main h1")}, not ${label("Fuse")}`);
  const fields = () => page.locator("form label").allTextContents();
  check(await comes(async () => { const now = await fields(); return ["Normal", "Ambient", "Wire area"].every((text, i) => now[i]?.startsWith(`${label(text)} (`)); }), `${name}: its fields are ${(await fields()).slice(0, 3)}`);
  for (const [i, value] of ["500", "45", "1.5"].entries()) await page.locator("form input").nth(i).fill(value);
  await page.click("form button.main");
  const told = spawnSync(binary, ["--language", code, "figure", "fuse", "normal_a=500", "ambient_c=45", "wire_area_mm2=1.5"], { encoding: "utf8" }).stderr.trim().replace("lanewick: ", "");
  const { decimal = "." } = code === "en" ? {} : await catalogue(code);
  check(await reads("p.error", told.replace("0.005", `0${decimal}005`)), `${name}: the page says ${await page.textContent("p.error")}, the program ${told}`);
  await accessible(page, `${name}, a figure`);
  await fits(page, `${name}, a figure`);
  await picture(page, `words-figure-${code}`);
  await page.evaluate(() => { location.hash = "#/figures"; });
  await page.waitForSelector(".cards strong");
  const titles = () => page.locator(".cards strong").allTextContents();
  check(await comes(async () => { const now = await titles(); return new Set(now).size === now.length && (code === "en" || now.every((title) => parts[3].includes(title))); }), `${name}: every figure has a title of its own: ${await titles()}`);
}

await page.goto(server.base);
await page.waitForSelector("main h1");
check(await comes(async () => await tongue() === "sw"), `a browser that speaks Swahili gets ${await tongue()}`);
const list = await (await fetch(`${server.base}/words/list.json`)).json();
check(list.map((one) => one.code).sort().join() === "en,fr,ha,sw", "the list of languages");
for (const { code, name } of list) {
  await page.waitForSelector("header select");
  await Promise.all([page.waitForEvent("load"), page.selectOption("header select", code)]);
  await page.waitForSelector("header select");
  check(await comes(async () => await tongue() === code), `${name} was chosen, the page is ${await tongue()}`);
  const expected = code === "en" ? "Language" : (await catalogue(code)).texts.Language;
  await until(async () => await page.getAttribute("header select", "aria-label") === expected, `${name}: ${expected}`);
  await until(async () => await page.locator("header select option:checked").textContent() === name, `${name} is shown`);
  await accessible(page, name);
  await fits(page, name);
  await picture(page, `words-${code}`);
  await figure(code, name);
}
await page.reload();
await page.waitForSelector("main h1");
check(await tongue() === list[list.length - 1].code, "the choice is kept");
const texts = `/words/${list[list.length - 1].code}.json`;
await until(() => page.evaluate(async (file) => navigator.serviceWorker.controller !== null && (await caches.match(file)) !== undefined, texts), "its texts are kept");
await server.stop();
await page.goto(server.base);
await page.waitForSelector("main h1");
check(await tongue() === list[list.length - 1].code, "the choice is kept without the server");
await stop();
end();
