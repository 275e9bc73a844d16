// SPDX-License-Identifier: GPL-3.0-or-later
// A phone on the workshop's network, then out of its reach: two network namespaces joined by a cable of the test's own, the
// server at 192.168.77.1, the browser at 192.168.77.2. The browser trusts the workshop's root certificate as a phone does, through
// its own store of certificates; certificate errors are never ignored. Pairing wrong and right; fifty readings without a connection,
// the cable pulled again while they are sent; nothing lost, nothing doubled, all in order.
// usage: offline.mjs LANEWICK FOLDER-FOR-PICTURES   Where the system allows no namespace of one's own it fails and says so.
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { accessible, bothThemes, browse, check, chrome, end, fits, pause, pictures, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const SHOP = "192.168.77.1", cable = `
  ip link set lo up; unshare -n sleep 3600 & shop=$!
  while [ "$(readlink /proc/$shop/ns/net)" = "$(readlink /proc/$$/ns/net)" ]; do :; done
  ip link add phone type veth peer name shop netns $shop
  nsenter -t $shop -n sh -c 'ip link set lo up; ip addr add ${SHOP}/24 dev shop; ip link set shop addrgenmode none up'
  ip addr add 192.168.77.2/24 dev phone; ip link set phone addrgenmode none up # an address of its own a second later is a changed network
  LW_SHOP=$shop "$@"; code=$?; kill $shop; exit $code`;
if (!process.env.LW_SHOP) {
  if (spawnSync("unshare", ["-rn", "true"]).status !== 0) {
    console.log("FAIL this system allows no network namespace (unshare -rn): the test of a phone out of reach cannot run\n0 passed, 1 failed");
    process.exit(1);
  }
  process.exit(spawnSync("unshare", ["-rn", "sh", "-c", cable, "sh", process.execPath, ...process.argv.slice(1)], { stdio: "inherit" }).status ?? 1);
}

const home = mkdtempSync(join(tmpdir(), "lw-offline-")), store = join(home, "w.store"), picture = pictures(folder);
process.env.HOME = home;
const plug = (way) => spawnSync("ip", ["link", "set", "phone", way]);
const server = spawn("nsenter", ["-t", process.env.LW_SHOP, "-n", binary, "serve", "--lan", "--port", "8642", "--store", store, "--folder", join(home, "keys")], { stdio: ["ignore", "pipe", "inherit"] });
const said = await new Promise((done) => {
  let text = "";
  server.stdout.on("data", (part) => { text += part; if (/Code for one/.test(text)) done(text); });
  server.on("exit", () => done(text));
});
const code = /[2-9A-Z]{4}-[2-9A-Z]{4}/.exec(said)?.[0], base = `https://${SHOP}:8643`;
check(code !== undefined, `a code on the laptop's screen: ${said}`);

/** Rows of the store, by another program. */
const rows = (sql) => JSON.parse(spawnSync("python3", ["-c", "import json,sqlite3,sys; print(json.dumps(sqlite3.connect(sys.argv[1]).execute(sys.argv[2]).fetchall()))", store, sql], { encoding: "utf8" }).stdout);
const complaints = [];
async function open() {
  const { context, stop } = await browse(), page = await context.newPage();
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { context, page, stop };
}

/** Opens an address; a browser that still tells of the cable of before, or shows its page about that, is asked again. */
async function visit(page, address) {
  for (let asked = 0; ; asked++) {
    try { return await page.goto(address); } catch (error) { if (asked > 9 || !/ERR_NETWORK_CHANGED|chrome-error/.test(String(error))) throw error; }
    await pause(200);
  }
}

/** Without the root the browser refuses; with it in its store, as a phone has it from the workshop's install page, it opens. */
async function trust() {
  const first = await open();
  const refused = await visit(first.page, `${base}/`).then(() => "", (error) => String(error));
  check(/ERR_CERT_AUTHORITY_INVALID/.test(refused), `without the root: ${refused}`);
  await first.stop();
  const root = await (await fetch(`http://${SHOP}:8644/workshop-root.crt`)).arrayBuffer(), file = join(home, "root.crt"), db = `sql:${join(home, ".pki/nssdb")}`;
  writeFileSync(file, Buffer.from(root));
  spawnSync("mkdir", ["-p", join(home, ".pki/nssdb")]);
  for (const words of [["-N", "--empty-password"], ["-A", "-n", "workshop", "-t", "C,,", "-i", file]]) {
    const done = spawnSync("certutil", ["-d", db, ...words], { encoding: "utf8" });
    check(done.status === 0, `certutil ${words[0]}: ${done.error ?? done.stderr}`);
  }
}

const phone = await trust().then(open), page = phone.page;

async function pair() {
  await visit(page, `${base}/`);
  await page.getByLabel("Code", { exact: true }).fill("AAAA-AAAA");
  await page.getByLabel("Name of this phone").fill("the bench's phone");
  await page.getByRole("button", { name: "Join" }).click();
  await page.getByText("This is not right").waitFor();
  check(await page.getByLabel("Code", { exact: true }).inputValue() === "AAAA-AAAA", "a wrong code stays as it was typed");
  await accessible(page, "pair");
  await fits(page, "pair");
  await picture(page, "pair-wrong");
  await page.getByLabel("Code", { exact: true }).fill(code.toLowerCase());
  await page.getByRole("button", { name: "Join" }).click();
  await page.getByLabel("Latitude").waitFor();
  const kept = await page.evaluate(async () => { await navigator.serviceWorker.ready; return navigator.serviceWorker.controller !== null || "after a reload"; });
  check(kept !== null, "the service worker is there");
}

async function installable() {
  await page.reload();
  const session = await phone.context.newCDPSession(page);
  const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
  const wrong = installabilityErrors.map((e) => e.errorId).filter((id) => id !== "in-incognito");
  check(wrong.length === 0, `may be put on the home screen: ${wrong.join(", ")}`);
}

const field = () => page.getByLabel("Voltage as found");
const volts = (i) => (3 + i / 100).toFixed(2);
async function take(from, to) {
  await field().focus();
  for (let i = from; i <= to; i++) {
    await page.keyboard.type(volts(i));
    await page.keyboard.press("Enter");
    await page.getByText(`J-${i}`, { exact: true }).first().waitFor();
  }
}

async function fifty() {
  await visit(page, `${base}/#/cells/in`);
  await page.getByLabel("Label of the crate").fill("J");
  await page.keyboard.press("Enter");
  await field().waitFor();
  await take(1, 1);
  await until(async () => (await page.locator(".parts").textContent()).includes("Sent"), "the first cell is sent");
  await until(() => page.evaluate(async () => (await caches.match("/core.wasm")) !== undefined && navigator.serviceWorker.controller !== null), "page and core are kept");
  plug("down");
  await take(2, 25);
  await page.reload(); /* it opens without the laptop, and what was typed is there */
  await page.getByLabel("Voltage as found").waitFor();
  await until(async () => await page.getByLabel("Label of this cell").inputValue() === "J-26", "the next label after opening again");
  await take(26, 51);
  await until(async () => (await page.locator(".recent").textContent()).includes("unsure"), "verdicts come without the laptop");
  await visit(page, `${base}/#/place`); /* a plan begun and made without the laptop */
  await page.getByLabel("Latitude").fill("-11.62");
  await page.getByLabel("Longitude").fill("34.27");
  await page.keyboard.press("Enter");
  await page.locator("section[aria-label='Sun of the place']").waitFor();
  await visit(page, `${base}/#/power`);
  await page.getByText("Make the plan").click();
  await page.getByText("Made on this device by lanewick").waitFor();
  check(Number(await page.evaluate(() => JSON.parse(localStorage.getItem("lanewick.page/1")).plan.value.lamps.length)) > 0, "a plan without the laptop");
  await picture(page, "offline-plan");
  await visit(page, `${base}/#/cells/send`);
  await page.getByText("50 slips wait.").waitFor();
  await accessible(page, "offline");
  await picture(page, "offline-send");
  check(rows("select count(*) from cell")[0][0] === 1, "one cell at the laptop so far");
}

/** The cable comes back, goes again in the middle of the sending, and comes back. */
async function back() {
  for (let tries = 0; tries < 3; tries++) {
    plug("up");
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await until(async () => Number(/(\d+) slips? wait/.exec(await page.textContent("main"))?.[1] ?? 0) < 50 - 12 * tries, `some are sent, try ${tries + 1}`);
    plug("down");
  }
  plug("up");
  await page.getByText("Everything is at the laptop.").waitFor();
  const cells = rows("select code, found_v from cell order by rowid");
  check(cells.length === 51 && cells.every(([label, v], i) => label === `J-${i + 1}` && Math.abs(v - Number(volts(i + 1))) < 1e-9), `in order, once each: ${JSON.stringify(cells)}`);
  check(rows("select count(*) from slip")[0][0] === 52, "a slip for the crate and each cell");
  check(rows("select distinct who from journal where kind = 'cell'").join() === "the bench's phone", "the journal names the phone");
}

/** A planner's phone, paired by a second code: every stage and view over the trusted certificate, a plan told by events, its sheets, its packs. */
async function stages() {
  const ask = "import json,urllib.request as u; print(json.load(u.urlopen(u.Request('http://127.0.0.1:8642/api/v1/pairing', b'{\"role\": \"planner\"}', {'Content-Type': 'application/json'})))['code'])";
  const code = spawnSync("nsenter", ["-t", process.env.LW_SHOP, "-n", "python3", "-c", ask], { encoding: "utf8" });
  const planner = await open(), view = planner.page, streams = [];
  view.on("response", (answer) => { if (answer.url().endsWith("/events")) streams.push(answer.headers()["content-type"]); });
  try {
    await visit(view, `${base}/#pair=${code.stdout.trim()}`);
    await view.getByLabel("Name of this phone").fill("the planner's phone");
    await view.getByRole("button", { name: "Join" }).click();
    await view.getByText("Load the example, Nsungwi Landing").click();
    await view.locator("section[aria-label='Sun of the place']").waitFor();
    await visit(view, `${base}/#/power`);
    await view.getByText("Make the plan").click();
    await view.locator("svg.ribbon").waitFor();
    check(streams.length > 0 && streams[0].startsWith("text/event-stream"), `progress by events over TLS: ${streams}`);
    const places = { place: "svg.plot", light: "svg.laneplan", power: "svg.ribbon", cells: ".tray .cell", "cells/in": ".pad", "cells/test": "main h1", "cells/send": "main h1", pack: "textarea", wiring: "main svg", mast: "main svg", sheets: ".preview img", figures: ".cards a", "figures/normal_quantile": "form", plans: "table", jobs: ".jobs li" };
    for (const [name, what] of Object.entries(places)) {
      await visit(view, `${base}/#/${name}`);
      const link = name === "jobs" ? "plans" : name.startsWith("cells") ? name : name.split("/")[0];
      await view.locator(`a[href='#/${link}'][aria-current='page']`).first().waitFor({ state: "attached" });
      await view.locator(what).first().waitFor();
      check(await view.locator("main h1").count() === 1, `${name} has its heading`);
      await bothThemes(view, `${name} over TLS`);
    }
    /* the bench's phone may not plan: it is told so in a sentence */
    await visit(page, `${base}/#/jobs`);
    await page.getByText("This device has the role bench").waitFor();
    await page.getByText("The laptop that runs lanewick does not answer").waitFor({ state: "detached" });
    await picture(page, "not-allowed");
  } finally { await planner.stop(); }
}

for (const part of [pair, installable, fifty, back, stages]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${error.message.slice(0, 400)}`); await page.screenshot({ path: `${folder}/fault-offline-${part.name}.png` }).catch(() => undefined); }
}
check(complaints.length === 0, `the browser complains: ${[...new Set(complaints)].join("; ")}`);
await phone.stop();
server.kill("SIGTERM");
rmSync(home, { recursive: true, force: true });
end();
