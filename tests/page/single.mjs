// SPDX-License-Identifier: GPL-3.0-or-later
// The page as one file, opened from a disk with no network at all: cells, a test, a figure, the sun of a place, a whole plan. Its readings come
// back as a file and as a run of codes, read off the screen by another program; the command line takes each in exactly once.
// usage: single.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { accessible, browse, check, chrome, end, fits, pictures, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const place = mkdtempSync(join(tmpdir(), "lw-single-")), single = join(place, "lanewick.html"), picture = pictures(folder);
const run = (...words) => spawnSync(binary, words, { encoding: "utf8" });
const made = run("page", "--single", single);
check(made.status === 0, made.stderr);
check(statSync(single).size < 3_000_000, `${statSync(single).size} bytes; 3 MB is the most`);
const html = readFileSync(single, "utf8");
check(!/<script[^>]+src=|<link[^>]+href="(?!data:)/.test(html), "nothing is loaded from anywhere");

const { context, stop } = await browse(), page = await context.newPage(), complaints = [];
await context.setOffline(true);
page.on("pageerror", (error) => complaints.push(String(error)));
page.on("console", (m) => { if (m.type() === "error") complaints.push(m.text()); });
page.on("request", (request) => { if (!/^(file|data|blob):/.test(request.url())) complaints.push(`asked ${request.url()}`); });
const url = pathToFileURL(single).href;

async function bench() {
  await page.goto(`${url}#/cells/in`);
  await page.getByLabel("Label of the crate").fill("V");
  await page.keyboard.press("Enter");
  await page.getByLabel("Voltage as found").waitFor();
  for (let i = 1; i <= 12; i++) {
    await page.getByLabel("Voltage as found").fill(`3,${500 + i}`);
    await page.keyboard.press("Enter");
    await page.getByText(`V-${i}`, { exact: true }).first().waitFor();
  }
  await page.reload();
  await page.getByLabel("Voltage as found").waitFor();
  await until(async () => await page.getByLabel("Label of this cell").inputValue() === "V-13", "what was typed is there after opening again");
  await page.goto(`${url}#/cells/test/V-3`);
  await page.getByLabel("Test", { exact: true }).selectOption("hold");
  await page.getByLabel("Voltage 24 hours after the charge").fill("4.15");
  await page.getByText("Keep it", { exact: true }).click();
  await page.getByText("Undo the last test").waitFor();
}

async function alone() {
  await page.goto(`${url}#/figures/normal_quantile`);
  await page.getByLabel("Probability").fill("0,975");
  await page.getByText("Compute").click();
  await until(async () => (await page.textContent(".answers dd")).startsWith("1.96"), "the 97.5th percentile is 1.96 (any table of the normal distribution)");
  await page.goto(`${url}#/place`);
  await page.getByLabel("Latitude").fill("-11.62");
  await page.getByLabel("Longitude").fill("34.27");
  await page.keyboard.press("Enter");
  await page.locator("section[aria-label='Sun of the place']").waitFor();
  const told = JSON.parse(run("figure", "climate", "lat_deg=-11.62", "lon_deg=34.27", "--json").stdout);
  await until(async () => (await page.textContent(".headline .big")).startsWith(Math.min(...told.ghi_kwh_m2_day).toPrecision(2)), "the poorest month as the program has it");
}

/** A whole plan, and its sliders; the program makes the same from the same brief (tests/page/plans.mjs compares digits). */
async function plan() {
  await page.goto(`${url}#/power`);
  await page.getByText("Make the plan").click();
  await page.getByText("Made on this device by lanewick").waitFor();
  const { value } = await page.evaluate(() => JSON.parse(localStorage.getItem("lanewick.page/1")).plan);
  const told = JSON.parse(spawnSync(binary, ["plan", "-", "--json"], { input: JSON.stringify(value.brief), encoding: "utf8", maxBuffer: 1 << 25 }).stdout);
  check(JSON.stringify(value.lamps.map((l) => l.size)) === JSON.stringify(told.lamps.map((l) => l.size)) && value.cost.total === told.cost.total && value.code === told.code, "the plan of the page is the program's");
  await page.locator("section[aria-label='Night ribbon'] figure").waitFor();
  await page.getByLabel("Cells side by side").fill(String(value.lamps[0].size.parallel > 1 ? 1 : 2));
  await page.getByText("dark nights a year with these sizes").waitFor();
  await accessible(page, "single-power");
  await fits(page, "single-power");
  await picture(page, "single-power");
  await page.goto(`${url}#/light`);
  await page.locator("section[aria-label='Light'] .headline").first().waitFor();
  await page.goto(`${url}#/wiring`);
  await page.locator("main table").first().waitFor();
  await page.goto(`${url}#/mast`);
  await page.getByLabel("Wind").fill("24");
  await page.getByText("depth of the base").waitFor();
  await page.goto(`${url}#/sheets`);
  await page.getByText("This plan was made on this device.").waitFor();
  await accessible(page, "single-sheets");
  check(await page.locator("a[href='#/prices'], a[href='#/jobs']").count() === 0, "what the laptop alone has is not offered");
  await page.goto(`${url}#/plans`);
  await page.getByText(`this device, ${value.program}`).waitFor();
  check(await page.locator("a[href='#/prices'], a[href='#/jobs']").count() === 0, "nor beside the plans");
  await page.goto(`${url}#/place`);
  await page.getByText("Load the example").click();
  await page.locator(".job", { hasText: "Nsungwi Landing" }).waitFor();
}

/** What another program reads off the screen. It misses a picture of a code now and then; a hand moves the phone a little then, here the window is another. */
async function readCode(code, file) {
  for (const width of [360, 420, 330, 480]) {
    await page.setViewportSize({ width, height: 740 });
    await code.screenshot({ path: file });
    const read = spawnSync("zbarimg", ["--raw", "-q", "-Sdisable", "-Sqrcode.enable", file], { encoding: "utf8" });
    if (read.status === 0) return read.stdout;
  }
  return "";
}

async function back() {
  await page.goto(`${url}#/cells/send`);
  await page.getByText("14 slips wait.").waitFor();
  await accessible(page, "single");
  await fits(page, "single");
  await picture(page, "single-send");
  const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "As a file" }).click()]);
  const slips = join(place, "slips.json"), store = join(place, "a.store"), lines = join(place, "codes.txt");
  await file.saveAs(slips);
  check(/14 taken in, 0 were there/.test(run("crate", "slips", slips, "--store", store).stdout), "the file is taken in");
  check(/0 taken in, 14 were there/.test(run("crate", "slips", slips, "--store", store).stdout), "and once only");
  await page.getByRole("button", { name: "As a run of codes" }).click();
  const codes = page.locator(".codes svg");
  await codes.waitFor();
  await picture(page, "single-codes");
  const count = Number(/of (\d+)/.exec(await page.locator(".codes p").textContent())[1]);
  let text = "";
  for (let i = 0; i < count; i++) {
    await page.getByRole("img", { name: `Code ${i + 1} of ${count}` }).waitFor();
    const read = await readCode(codes, join(place, `code-${i}.png`));
    check(read !== "", `code ${i + 1} of ${count} is read by zbar`);
    text += read;
    if (i + 1 < count) await page.getByText("Next code").click();
  }
  writeFileSync(lines, text);
  check(count > 2 && /0 taken in, 14 were there/.test(run("crate", "slips", lines, "--store", store).stdout), `${count} codes say the same as the file`);
  check(/14 taken in, 0 were there/.test(run("crate", "slips", lines, "--store", join(place, "b.store")).stdout), "the codes alone are enough");
  const cells = run("crate", "list", "V", "--store", join(place, "b.store")).stdout;
  check(/12 cells/.test(cells) && /V-12 +V +3\.512 V/.test(cells), cells);
}

for (const part of [bench, alone, plan, back]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${error.message.slice(0, 400)}`); await page.screenshot({ path: `${folder}/fault-single-${part.name}.png` }); }
}
check(complaints.length === 0, `the browser complains: ${[...new Set(complaints)].join("; ")}`);
await stop();
rmSync(place, { recursive: true, force: true });
end();
