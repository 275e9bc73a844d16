// SPDX-License-Identifier: GPL-3.0-or-later
// A real server and a real browser for the tests of the page; counts what holds.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createInterface } from "node:readline";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

const needs = createRequire(new URL("../../web/package.json", import.meta.url));
const { chromium } = needs("playwright-core");
const axe = readFileSync(needs.resolve("axe-core/axe.min.js"), "utf8");

export const chrome = ["/usr/bin/chromium", "/usr/lib/chromium/chromium"].find(existsSync);
let passed = 0, failed = 0;
export function check(holds, what) {
  if (holds) passed++;
  else { failed++; console.log(`FAIL ${what}`); }
}
export function end() {
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
}

/* How long a test waits for what must come: a slow or busy machine may take its time, a broken page never gets there. */
const PATIENCE_MS = 60000;
export const pause = (ms) => new Promise((done) => setTimeout(done, ms));
/** Whether it comes to this. Looking may fail while the page is on its way. */
export async function comes(look) {
  for (const end = Date.now() + PATIENCE_MS; ; await pause(100)) {
    const last = Date.now() > end;
    if (await look().catch(() => false)) return true;
    if (last) return false;
  }
}
export const until = async (look, what) => check(await comes(look), what);

/** What stands on the page for a moment only is noted as it comes: call this before, and the answer, which tells whether it came, after. */
export async function passing(page, place, words = "") {
  await page.evaluate(([wanted, part]) => {
    window.passing?.disconnect();
    window.passed = false;
    window.passing = new MutationObserver(() => { window.passed ||= [...document.querySelectorAll(wanted)].some((e) => e.textContent.includes(part)); });
    window.passing.observe(document.body, { subtree: true, childList: true, characterData: true });
  }, [place, words]);
  return () => comes(() => page.evaluate(() => window.passed));
}

/** The system gives the port; the server's first line tells it. On a machine of many cores plans take as long as on a laptop. `held` looks
    at something while the server stands still, so that no work of it ends meanwhile. */
export async function serve(binary) {
  const folder = mkdtempSync(join(tmpdir(), "lw-page-")), store = join(folder, "w.store");
  const server = spawn(binary, ["serve", "--port", "0", "--store", store], { stdio: ["ignore", "pipe", "ignore"], env: { ...process.env, HOME: folder, XDG_DATA_HOME: folder, XDG_CONFIG_HOME: folder, OMP_NUM_THREADS: "2" } });
  const ended = new Promise((done) => server.once("exit", done));
  const base = await new Promise((done, fail) => {
    createInterface({ input: server.stdout }).on("line", (line) => { const at = /http:\/\/[\d.:]+/.exec(line); if (at) done(at[0]); });
    void ended.then((code) => fail(new Error(`the server ended with ${code}`)));
  });
  const held = async (look) => { server.kill("SIGSTOP"); try { await look(); } finally { server.kill("SIGCONT"); } };
  return { base, store, held, stop: async () => { server.kill("SIGTERM"); await ended; rmSync(folder, { recursive: true, force: true }); } };
}

export async function browse(options = {}) {
  const profile = mkdtempSync(join(tmpdir(), "lw-browser-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chrome, headless: true, viewport: { width: 360, height: 740 }, reducedMotion: "reduce", timeout: 2 * PATIENCE_MS, ...options,
    args: [...(options.args ?? []), "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
  context.setDefaultTimeout(PATIENCE_MS);
  return { context, stop: async () => { await context.close(); rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 }); } };
}

/** Rules of WCAG 2.2 A and AA that a machine can test. */
export async function accessible(page, name) {
  const wrong = await page.evaluate(`${axe}; axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] })
    .then((r) => r.violations.map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.target.join(" ")).join(", ")))`);
  check(wrong.length === 0, `${name}: ${wrong.join("; ")}`);
}

/** The Tab key reaches everything that can be used, in the order in which it stands on the page (WCAG 2.2, 2.1.1 and 2.4.3). */
export async function reachable(page, name) {
  const list = `[...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")].filter((e) => !e.disabled && e.checkVisibility() && e.getClientRects().length)`;
  const wanted = await page.evaluate(`window.tabbed = ${list}; window.tabbed.length`);
  await page.evaluate("document.activeElement.blur(); scrollTo(0, 0); document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex')");
  const order = [];
  for (let i = 0; i < wanted + 5 && order.length < wanted; i++) {
    await page.keyboard.press("Tab");
    const place = await page.evaluate("window.tabbed.indexOf(document.activeElement)");
    if (place >= 0 && !order.includes(place)) order.push(place);
  }
  check(order.length === wanted, `${name}: the Tab key reaches ${order.length} of ${wanted}`);
  check(order.every((place, i) => i === 0 || place > order[i - 1]), `${name}: the order of the Tab key is ${order}`);
}

/** Nothing may stick out sideways, and what is touched is big enough (WCAG 2.2, 2.5.8: 24 px; ours: 48 px). */
export async function fits(page, name) {
  const { out, small } = await page.evaluate(() => ({
    out: document.documentElement.scrollWidth - innerWidth,
    small: [...document.querySelectorAll("button, input, select, textarea, summary, nav a")].filter((e) => {
      const box = e.getBoundingClientRect();
      return box.height > 0 && box.height < 47.5 && e.type !== "checkbox" && e.type !== "radio";
    }).map((e) => e.outerHTML.slice(0, 80)),
  }));
  check(out <= 0, `${name}: ${out} px wider than the screen`);
  check(small.length === 0, `${name}: too small to touch: ${small.join("; ")}`);
}

/** A view in both themes, at night and on paper: rules a machine can test, a picture of each where wanted, nothing that sticks out. */
export async function bothThemes(page, name, picture = () => undefined) {
  for (const theme of ["night", "paper"]) {
    await page.evaluate((t) => { document.documentElement.dataset.theme = t; }, theme);
    await accessible(page, `${name}, ${theme}`);
    await picture(page, theme === "night" ? name : `${name}-paper`);
  }
  await fits(page, name);
}

export function pictures(folder) {
  mkdirSync(folder, { recursive: true });
  return async (page, name) => {
    for (const [kind, size] of [["phone", { width: 360, height: 740 }], ["laptop", { width: 1280, height: 800 }]]) {
      await page.setViewportSize(size);
      await page.screenshot({ path: join(folder, `${name}-${kind}.png`), fullPage: kind === "phone" });
    }
    await page.setViewportSize({ width: 360, height: 740 });
  };
}
