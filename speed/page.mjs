// SPDX-License-Identifier: GPL-3.0-or-later
// How long a slow phone waits: first load of the page at a quarter of this machine's speed and 400 kbit/s with 150 ms of way,
// then from a change to its answer at full speed. Wants an idle machine.   usage: node speed/page.mjs LANEWICK [ROUNDS]
import { browse, serve } from "../tests/page/browser.mjs";

const ROUNDS = Number(process.argv[3] ?? 5), SLOWER = 4, BYTES_S = 400000 / 8, WAY_MS = 150, QUIET_MS = 5000;
const server = await serve(process.argv[2]);
const middle = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

/** When the first screen stands, and when the browser is free for the rest of five seconds (time to interactive). */
async function load() {
  const { context, stop } = await browse();
  const page = await context.newPage();
  await page.addInitScript(() => {
    window.seen = { screen: 0, busy: 0 };
    new PerformanceObserver((list) => { for (const task of list.getEntries()) window.seen.busy = Math.max(window.seen.busy, task.startTime + task.duration); }).observe({ type: "longtask", buffered: true });
    const watch = new MutationObserver(() => { if (document.querySelector("main h1") && !window.seen.screen) window.seen.screen = performance.now(); });
    watch.observe(document, { childList: true, subtree: true });
  });
  const devtools = await context.newCDPSession(page);
  await devtools.send("Network.enable");
  await devtools.send("Network.emulateNetworkConditions", { offline: false, latency: WAY_MS, downloadThroughput: BYTES_S, uploadThroughput: BYTES_S });
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  let bytes = 0;
  devtools.on("Network.loadingFinished", (e) => { bytes += e.encodedDataLength; });
  await page.goto(server.base, { waitUntil: "commit" });
  while (!(await page.evaluate(() => window.seen?.screen > 0).catch(() => false))) await page.waitForTimeout(20);
  const first = bytes;
  await page.waitForTimeout(QUIET_MS);
  const seen = await page.evaluate(() => window.seen);
  await stop();
  return { screen: seen.screen, interactive: Math.max(seen.screen, seen.busy < seen.screen + QUIET_MS ? seen.busy : seen.screen), bytes: first };
}

/** From a change to the answer on the page. */
async function edits() {
  const { context, stop } = await browse();
  const page = await context.newPage();
  await page.goto(`${server.base}/#/place`);
  await page.getByText("Load the example").click();
  await page.waitForSelector("section[aria-label='Sun of the place']");
  const time = async (change, done) => {
    const list = [];
    for (let i = 0; i < ROUNDS; i++) {
      const before = await page.evaluate(done), began = performance.now();
      await change(i);
      while (await page.evaluate(done) === before) await new Promise((next) => setTimeout(next, 5));
      list.push(performance.now() - began);
      await page.waitForTimeout(300);
    }
    return middle(list);
  };
  await page.goto(`${server.base}/#/light`);
  await page.waitForSelector("svg.laneplan");
  const light = await time((i) => page.getByRole("slider", { name: "Mast 1" }).press(i % 2 ? "ArrowLeft" : "ArrowRight"), () => JSON.parse(localStorage.getItem("lanewick.page/1")).light?.asked);
  await page.goto(`${server.base}/#/power`);
  await page.getByText("Make the plan").click();
  await page.waitForSelector("svg.ribbon");
  const plan = await time((i) => page.locator("input[type=range]").first().press(i % 2 ? "ArrowLeft" : "ArrowRight"), () => JSON.parse(localStorage.getItem("lanewick.page/1")).plan.asked);
  const sizes = await time((i) => page.getByLabel("Cells side by side").press(i % 2 ? "ArrowLeft" : "ArrowRight"), () => document.querySelector("svg.ribbon").innerHTML);
  await page.goto(`${server.base}/#/wiring`);
  await page.waitForSelector(".circuit");
  const wiring = await time((i) => page.getByRole("textbox", { name: /^Cells in a group/ }).fill(String(3 + (i % 2))), () => JSON.parse(localStorage.getItem("lanewick.page/1")).wiring?.asked);
  await stop();
  return { light, plan, sizes, wiring };
}

const loads = [];
for (let i = 0; i < ROUNDS; i++) loads.push(await load());
console.log(`first screen ${Math.round(middle(loads.map((l) => l.screen)))} ms, interactive ${Math.round(middle(loads.map((l) => l.interactive)))} ms, ${middle(loads.map((l) => l.bytes))} bytes over the wire until then (${SLOWER} x slower, ${BYTES_S * 8 / 1000} kbit/s, ${WAY_MS} ms)`);
const answers = await edits();
console.log(`from a change to its answer: ${Object.entries(answers).map(([name, ms]) => `${name} ${Math.round(ms)} ms`).join(", ")}`);
server.stop();
