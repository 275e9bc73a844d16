// SPDX-License-Identifier: GPL-3.0-or-later
// A newcomer opens the page, loads the example, plans, reads the nights, uses a figure, makes mistakes. Phone first.
// usage: newcomer.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { accessible, browse, check, chrome, end, fits, pictures, serve } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) {
  console.log("There is no Chromium here: skipped.");
  process.exit(77);
}
const server = await serve(binary);
const { context, stop } = await browse();
const page = await context.newPage();

// The page answers in its own time: each look waits for what it looks for, ten seconds at most.
const seen = (place) => place.first().waitFor({ timeout: 10000 }).then(() => true, () => false);
const gone = (place) => place.first().waitFor({ state: "hidden", timeout: 10000 }).then(() => true, () => false);
async function reads(place, words) {
  for (let i = 0; i < 100; i++) {
    if ((await page.textContent(place))?.includes(words)) return true;
    await page.waitForTimeout(100);
  }
  return false;
}
const picture = pictures(folder);
const complaints = [];
page.on("console", (message) => { if (["error", "warning"].includes(message.type()) && !message.text().match(/status of 4|ERR_CONNECTION_REFUSED|Failed to load resource/)) complaints.push(message.text()); });
page.on("pageerror", (error) => complaints.push(String(error)));
page.on("request", (request) => check(request.url().startsWith(server.base) || request.url().startsWith("data:"), `asked elsewhere: ${request.url()}`));
page.setDefaultTimeout(30000);

const stage = async (name) => { await page.goto(`${server.base}/#/${name}`); await page.waitForSelector("main h1"); };
const theme = async (name) => { if (await page.getAttribute("html", "data-theme") !== name) await page.click("header button"); };
const both = async (name) => {
  for (const look of ["paper", "night"]) { await theme(look); await accessible(page, `${name}, ${look}`); }
  await fits(page, name);
  await picture(page, name);
};

async function place() {
  await page.goto(server.base);
  await page.waitForSelector("main h1");
  await both("start");
  await page.getByLabel("Latitude").fill("91");
  check(await seen(page.getByText("“91” does not fit")), "a latitude of 91 is told");
  check(await page.getByLabel("Latitude").inputValue() === "91", "what was typed stays");
  await page.getByLabel("Latitude").fill("-11,62");
  await page.getByLabel("Longitude").fill("34.27");
  await page.keyboard.press("Enter");
  await page.waitForSelector("section[aria-label='Sun of the place']");
  const reference = await (await fetch(`${server.base}/api/v1/climate?lat=-11.62&lon=34.27`)).json();
  const least = Math.min(...reference.ghi_kwh_m2_day).toPrecision(2);
  check((await page.textContent(".headline .big"))?.startsWith(least), `poorest month ${least}`);
  await page.getByText("Load the example").click();
  await page.waitForFunction(() => document.querySelector(".job")?.textContent?.startsWith("Nsungwi Landing"));
  await both("place");
}

async function power() {
  await stage("power");
  await both("wish");
  await page.getByText("Make the plan").click();
  await page.waitForSelector("progress");
  await page.waitForSelector("section[aria-label='The plan']", { timeout: 90000 });
  await page.waitForSelector("svg.ribbon");
  check(await page.locator("svg.ribbon .burns").count() >= 2, "full light and turned down light are drawn");
  check(/^\S.* \(\d+ to \d+\)/.test(await page.textContent(".headline .big")), "dark nights with their band");
  check(await page.locator(".caution").count() > 0, "cautions are shown");
  await page.getByLabel("Night of the year").focus();
  await page.keyboard.press("Home");
  check(await reads(".story", "Night of 1 January: dusk 18:"), "the story of a night by keyboard");
  await page.getByLabel("The ribbon shows").selectOption("worst");
  check(await page.locator("svg.ribbon path[fill^='url']").count() === 1, "dark nights of the worst year are hatched");
  await both("plan");
  await page.getByText("What is wanted").click();
  await page.getByLabel("Dark nights that can be borne").fill("1");
  check(await seen(page.getByText("Something has changed since this plan")), "a changed wish makes the plan old");
  check(await reads("nav a[href='#/power']", "re-do"), "the mast says re-do");
  await page.getByText("Undo the last change").click();
  check(await gone(page.getByText("Something has changed since this plan")), "undo brings it back");
}

async function refusal() {
  await page.evaluate(() => {
    const known = JSON.parse(localStorage.getItem("lanewick.page/1"));
    known.brief.build.vent = false;
    localStorage.setItem("lanewick.page/1", JSON.stringify(known));
  });
  await page.reload();
  await page.waitForSelector("main h1");
  await page.getByRole("button", { name: "Plan again" }).click();
  await page.waitForSelector(".refusal");
  check(await reads("nav a[href='#/power']", "refused"), "the mast says refused");
  check(await seen(page.getByText("What would make it acceptable")), "a refusal says what helps");
  await both("refused");
}

async function small() {
  await stage("light");
  await page.waitForSelector("svg.laneplan");
  await page.getByLabel("Masts", { exact: true }).fill("4");
  await page.waitForFunction(() => document.querySelectorAll(".mastdot").length === 4);
  await page.getByText("Search masts that meet the class").click();
  await page.getByLabel(/^Take \d+ masts$/).first().click();
  await page.waitForFunction(() => document.body.textContent.includes("P6 is met"));
  await both("light");
  await page.getByRole("button", { name: /^Plan \d+ lamps of/ }).click();
  await page.waitForSelector("text=Something has changed since this plan");
  await stage("pack");
  await page.getByLabel("Tested cells, one a line").fill("A; 1,8\nB; x");
  await page.getByText("Make the groups").click();
  check(await seen(page.getByText("Line 2, “B; x”")), "a wrong line is named");
  await page.getByLabel("Tested cells, one a line").fill("");
  await page.getByText("Fill in eighteen cells").click();
  await page.getByText("Make the groups").click();
  await page.waitForSelector("section[aria-label='Groups'] svg");
  await both("pack");
  await stage("wiring");
  await page.getByText("Compute the readings").click();
  await page.waitForSelector("section[aria-label='Readings'] table");
  await both("wiring");
  await stage("mast");
  await page.getByLabel("Wind", { exact: false }).first().fill("60");
  await page.getByText("Check the mast").click();
  await page.waitForSelector(".refusal");
  await both("mast");
}

/* A crate as the command line leaves it: taken in, one cell scrap, none tested yet. */
async function cells() {
  await stage("cells");
  await page.getByText("No crate has been taken in yet").waitFor();
  await both("cells-none");
  const run = (words, input) => spawnSync(binary, ["crate", ...words, "--store", server.store], { input, encoding: "utf8" });
  run(["new", "N", "--name", "blue crate"]);
  const rows = Array.from({ length: 24 }, (_, i) => `N-${String(i + 1).padStart(2, "0")},${i === 3 ? 0.4 : (3.21 + 0.017 * i).toFixed(3)}`);
  const taken = run(["import", "N", "-"], `code,found_v\n${rows.join("\n")}\n`);
  check(taken.status === 0, taken.stderr);
  run(["judge", "N"]);
  await page.reload();
  await page.waitForSelector(".tray");
  check(await page.locator(".tray .cell").count() === 24, "every cell of the crate");
  await page.locator(".tray .cell").nth(3).click();
  check(await reads(".story", "scrap"), "a cell found at 0.4 V is scrap (copper may have dissolved, common practice)");
  await both("cells");
}

/* The page opens when the laptop does not answer, and says so. */
async function away() {
  await page.goto(`${server.base}/#/place`);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  server.stop();
  await page.reload();
  await page.waitForSelector("main h1");
  check(await seen(page.getByText("does not answer")), "without the laptop the page opens and says that it is away");
  await both("away");
}

async function figures() {
  await stage("figures");
  await page.waitForSelector(".cards");
  const all = await (await fetch(`${server.base}/api/v1/figures`)).json();
  check(await page.locator(".cards a").count() === all.length, "every figure of the register");
  await page.getByLabel("Search").fill("normal quantile");
  await page.locator(".cards a").first().click();
  await page.getByLabel("Probability").fill("0,975");
  await page.getByText("Compute").click();
  check((await page.textContent(".answers dd")).startsWith("1.96"), "the 97.5th percentile is 1.96 (any table of the normal distribution)");
  await page.getByLabel("Probability").fill("2");
  await page.getByText("Compute").click();
  check(await seen(page.locator(".field.wrong")), "a wrong input is marked");
  await both("figure-wrong");
  await stage("figures/dusk_switch");
  await page.getByText("Fill in the example").click();
  await page.waitForSelector(".answers");
  await both("figure");
  await stage("figures");
  await page.waitForSelector(".cards");
  await both("figures");
}

for (const part of [place, power, refusal, small, cells, figures, away]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${String(error).slice(0, 600)}`); await picture(page, `lost-${part.name}`); }
}
check(complaints.length === 0, `the browser complains: ${complaints.join("; ")}`);
await stop();
server.stop();
end();
