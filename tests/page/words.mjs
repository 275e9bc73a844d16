// SPDX-License-Identifier: GPL-3.0-or-later
// The page in the person's language: that of the browser first, then the chosen one, kept; without connection too.
// usage: words.mjs LANEWICK FOLDER-FOR-PICTURES
import { accessible, browse, check, chrome, end, fits, pictures, serve } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) {
  console.log("There is no Chromium here: skipped.");
  process.exit(77);
}
const server = await serve(binary);
const { context, stop } = await browse({ locale: "sw-TZ" });
const page = await context.newPage();
page.setDefaultTimeout(30000);
const picture = pictures(folder);
const tongue = () => page.getAttribute("html", "lang");
const catalogue = async (code) => (await fetch(`${server.base}/words/${code}.json`)).json();

await page.goto(server.base);
await page.waitForSelector("main h1");
check(await tongue() === "sw", `a browser that speaks Swahili gets ${await tongue()}`);
const list = await (await fetch(`${server.base}/words/list.json`)).json();
check(list.map((one) => one.code).sort().join() === "en,fr,ha,sw", "the list of languages");
for (const { code, name } of list) {
  await page.waitForSelector("header select");
  await Promise.all([page.waitForEvent("load"), page.selectOption("header select", code)]);
  await page.waitForSelector("header select");
  check(await tongue() === code, `${name} was chosen, the page is ${await tongue()}`);
  const expected = code === "en" ? "Language" : (await catalogue(code)).texts.Language;
  check(await page.getAttribute("header select", "aria-label") === expected, `${name}: ${expected}`);
  check(await page.locator("header select option:checked").textContent() === name, `${name} is shown`);
  await accessible(page, name);
  await fits(page, name);
  await picture(page, `words-${code}`);
}
await page.reload();
await page.waitForSelector("main h1");
check(await tongue() === list[list.length - 1].code, "the choice is kept");
server.stop();
await page.goto(server.base);
await page.waitForSelector("main h1");
check(await tongue() === list[list.length - 1].code, "the choice is kept without the server");
await stop();
end();
