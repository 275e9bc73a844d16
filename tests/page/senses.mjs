// SPDX-License-Identifier: GPL-3.0-or-later
// What the page takes from the device itself: its position, its clipboard, and codes before its camera. The camera shows pictures of
// codes that the program and the page have drawn; the page decodes them as they are.
// usage: senses.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { accessible, browse, check, chrome, comes, end, fits, pictures, serve, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const server = await serve(binary), home = mkdtempSync(join(tmpdir(), "lw-senses-")), picture = pictures(folder);
const complaints = [];
async function phone(options) {
  const { context, stop } = await browse(options), page = await context.newPage();
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { context, page, stop };
}
/** A camera that looks at one picture: a film of JPEG pictures, one after another. */
const film = (jpeg, name) => { const file = join(home, `${name}.mjpeg`); writeFileSync(file, Buffer.concat(Array(30).fill(jpeg))); return file; };
const camera = (file) => phone({ permissions: ["camera"], args: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", `--use-file-for-fake-video-capture=${file}`] });

const one = await phone({ geolocation: { latitude: -11.62, longitude: 34.27 }, permissions: ["geolocation", "clipboard-read", "clipboard-write"] }), page = one.page;

async function position() {
  await page.goto(`${server.base}/#/place`);
  await page.getByRole("button", { name: "Where I stand" }).click();
  await page.locator("section[aria-label='Sun of the place']").waitFor();
  await until(async () => await page.getByRole("textbox", { name: /^Latitude/ }).inputValue() === "-11.62" && await page.getByRole("textbox", { name: /^Longitude/ }).inputValue() === "34.27", "the phone's position is the lane's place");
  await one.context.clearPermissions();
  await page.getByRole("button", { name: "Where I stand" }).click();
  await page.getByText("The phone does not tell its position").waitFor();
  await one.context.grantPermissions(["clipboard-read", "clipboard-write"]);
}

/** Cells copied from a table, with tabs, by the keys that paste. */
async function paste() {
  await page.goto(`${server.base}/#/pack`);
  const rows = ["cell\tAh\tmohm", ...Array.from({ length: 6 }, (_, i) => `T-${i + 1}\t${(1.8 + i / 20).toFixed(2)}\t70`)].join("\n");
  await page.evaluate((text) => navigator.clipboard.writeText(text), rows);
  await page.getByLabel("Tested cells, one a line").focus();
  await page.keyboard.press("Control+V");
  await page.getByLabel("Groups in series").fill("3");
  await page.getByLabel("Cells in a group").fill("2");
  await page.getByText("Make the groups").click();
  await page.locator("section[aria-label='Groups'] svg").first().waitFor();
  /* 1.80 + 2.05 = 1.85 + 2.00 = 1.90 + 1.95 = 3.85 Ah: nothing can be better */
  check((await page.textContent("section[aria-label='Groups'] .headline .big")).startsWith("3.85"), "six pasted cells make three groups of 3.85 Ah");
}

/** A label off the program's own sheet of labels: what the camera reads is what another decoder (zbar) reads. */
async function label() {
  const plan = spawnSync(binary, ["plan", new URL("../briefs/small.json", import.meta.url).pathname, "--json"], { encoding: "utf8", maxBuffer: 1 << 25 });
  writeFileSync(join(home, "plan.json"), plan.stdout);
  const sheet = spawnSync(binary, ["sheet", join(home, "plan.json"), "--out", join(home, "labels"), "--for", "labels", "--paper", "png"], { encoding: "utf8" });
  check(sheet.status === 0, sheet.stderr);
  const png = join(home, "labels/labels-1.png");
  await page.setViewportSize({ width: 640, height: 480 });
  await page.goto("about:blank");
  /* the first label of the sheet, as one holds it before a phone: a third of the width of A4 */
  await page.setContent(`<body style="margin:0;background:#fff"><div style="width:640px;height:480px;overflow:hidden"><img style="width:1700px;margin:-60px 0 0 -20px" src="data:image/png;base64,${readFileSync(png).toString("base64")}"></div>`);
  await page.evaluate(() => document.images[0].decode());
  const jpeg = await page.screenshot({ type: "jpeg", quality: 92 });
  writeFileSync(join(home, "label.jpg"), jpeg);
  const words = spawnSync("zbarimg", ["-q", "--raw", join(home, "label.jpg")], { encoding: "utf8" }).stdout.trim().split("\n");
  const eye = await camera(film(jpeg, "label"));
  try {
    await eye.page.goto(`${server.base}/#/cells/test`);
    await eye.page.getByRole("button", { name: "Scan its label" }).click();
    const field = eye.page.getByLabel("Label of the cell");
    await comes(async () => await field.inputValue() !== "");
    check(words.includes(await field.inputValue()) && words[0] !== "", `the camera reads ${await field.inputValue()}, zbar ${words}`);
  } finally { await eye.stop(); }
}

/** Readings that one phone shows as a code, another takes over by its camera; from there they go to the laptop once. */
async function handed() {
  await page.setViewportSize({ width: 640, height: 900 });
  await page.goto(`${server.base}/#/cells`);
  await one.context.setOffline(true);
  await page.goto(`${server.base}/#/cells/in`);
  await page.getByLabel("Label of the crate").fill("Q");
  await page.keyboard.press("Enter");
  for (const volts of ["3,61", "3,62"]) {
    await page.getByLabel("Voltage as found").fill(volts);
    await page.keyboard.press("Enter");
    await page.getByText(`Q-${volts.slice(-1)}`, { exact: true }).first().waitFor();
  }
  await page.goto(`${server.base}/#/cells/send`);
  await page.getByRole("button", { name: "As a run of codes" }).click();
  const code = page.getByRole("img", { name: "Code 1 of 1" });
  await code.scrollIntoViewIfNeeded();
  const box = await code.boundingBox();
  const shown = await page.screenshot({ clip: box }), table = await one.context.newPage();
  await table.setViewportSize({ width: 640, height: 480 });
  await table.setContent(`<body style="margin:0;background:#777"><img style="height:470px;margin:5px 85px" src="data:image/png;base64,${shown.toString("base64")}">`);
  await table.evaluate(() => document.images[0].decode());
  const jpeg = await table.screenshot({ type: "jpeg", quality: 92 });
  await table.close();
  const eye = await camera(film(jpeg, "code"));
  try {
    await eye.page.goto(`${server.base}/#/cells/send`);
    await eye.page.getByRole("button", { name: "Read codes by the camera" }).click();
    await eye.page.getByText("3 slips taken over.").first().waitFor();
    await accessible(eye.page, "camera");
    await fits(eye.page, "camera");
    await picture(eye.page, "camera");
    await eye.page.getByText("Everything is at the laptop.").waitFor();
  } finally { await eye.stop(); }
  await one.context.setOffline(false);
  await page.evaluate(() => dispatchEvent(new Event("online")));
  await page.getByText("Everything is at the laptop.").waitFor();
  const { cells } = await (await fetch(`${server.base}/api/v1/crates/Q/cells`)).json();
  check(cells.map((cell) => `${cell.code} ${cell.found_v}`).join() === "Q-1 3.61,Q-2 3.62", `both phones have sent them, they count once: ${JSON.stringify(cells)}`);
}

for (const part of [position, paste, label, handed]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${error.message.slice(0, 400)}`); await page.screenshot({ path: `${folder}/fault-senses-${part.name}.png` }).catch(() => undefined); }
}
check(complaints.length === 0, `the browser complains: ${[...new Set(complaints)].join("; ")}`);
await one.stop();
await server.stop();
rmSync(home, { recursive: true, force: true });
end();
