// SPDX-License-Identifier: GPL-3.0-or-later
// A day at the bench: thirty cells by keyboard alone, a discharge while the screen sleeps, two phones that write about one cell.
// A real server and store, looked at with the command line.  usage: bench.mjs LANEWICK FOLDER-FOR-PICTURES
import { spawnSync } from "node:child_process";
import { accessible, bothThemes, browse, check, chrome, end, pictures, serve, until } from "./browser.mjs";

const [binary, folder] = process.argv.slice(2);
if (!chrome) { console.log("There is no Chromium here: skipped."); process.exit(77); }
const server = await serve(binary), picture = pictures(folder);
const crate = (...words) => spawnSync(binary, ["crate", ...words, "--store", server.store], { encoding: "utf8" });
const stored = async (name) => (await (await fetch(`${server.base}/api/v1/cells?search=${name}`)).json()).cells;
const tests = async (name) => (await (await fetch(`${server.base}/api/v1/cells/${name}/tests?limit=500`)).json()).tests;
const complaints = [];

async function phone() {
  const { context, stop } = await browse(), page = await context.newPage();
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (m) => { if (m.type() === "error" && !/status of 4|ERR_|Failed to load/.test(m.text())) complaints.push(m.text()); });
  return { page, context, stop };
}
const both = (page, name) => bothThemes(page, name, picture);

const one = await phone(), page = one.page;
const key = (...keys) => keys.reduce((before, k) => before.then(() => page.keyboard.press(k)), Promise.resolve());

async function first() {
  await page.goto(`${server.base}/#/cells`);
  await page.getByText("No crate has been taken in yet").waitFor();
  await page.getByText("Begin with the first one.").click();
  await page.getByLabel("Label of the crate").fill("K 1");
  await page.getByText("Begin this crate").click();
  await until(() => page.getByText("A label has 1 to 32 letters").isVisible(), "a label with a space is refused");
  await page.getByLabel("Label of the crate").fill("K");
  await page.getByLabel("Its name").fill("kitchen table");
  await page.keyboard.press("Enter");
  await page.getByLabel("Voltage as found").waitFor();
  await page.waitForFunction(() => performance.getEntriesByType("resource").some((r) => r.name.endsWith("core.wasm")), null);
}

/** Nothing but the keyboard: from the address bar to the field by Tab, then digits, letters and Enter. */
async function thirty() {
  const field = page.getByLabel("Voltage as found");
  for (let i = 0; i < 60 && !(await field.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press("Tab");
  check(await field.evaluate((e) => e === document.activeElement), "the field is reached by Tab");
  for (let i = 1; i <= 30; i++) {
    await page.keyboard.type(i % 2 ? `3,${400 + i}` : `3.${400 + i}`);
    if (i === 7) await key("r", "d");
    if (i === 8) await key("s");
    if (i === 9) await key("Backspace", "Backspace", "Backspace", "Backspace", "Backspace", "1", ",", "8");
    await key("Enter");
    await page.getByText(`K-${i}`, { exact: true }).first().waitFor();
  }
  await until(() => page.locator(".recent .story").textContent().then((t) => t.includes("K-30") && t.includes("unsure")), "the verdict follows at once");
  await page.keyboard.type("42");
  await key("Enter");
  await until(() => page.getByText("cannot be one cell").isVisible(), "42 V is refused with a word");
  await key("Backspace", "Backspace");
  await key("=");
  await page.getByText("K-31", { exact: true }).first().waitFor();
  await key("u");
  await until(async () => (await page.getByLabel("Label of this cell").inputValue()) === "K-31", "undone: the label is free again");
  await both(page, "bench-in");
  /* faster than anything is kept or sent: every cell and every undoing counts once */
  for (let i = 0; i < 12; i++) await key("=", "u");
  await key("3", ".", "9", "Enter", "3", ".", "8", "Enter", "u", "3", ".", "7", "5", "Enter", "=", "u", "u", "u");
  await until(async () => (await page.getByLabel("Label of this cell").inputValue()) === "K-31" && (await page.getByLabel("Voltage as found").inputValue()) === "", "all that was hasty is undone");
  await until(async () => (await page.locator(".parts").textContent()).includes("Sent") && (await stored("K-")).length === 30, "thirty cells at the laptop, nothing on its way");
  const cells = await stored("K-"), of = (code) => cells.find((c) => c.code === code);
  check(cells.every((c) => Math.abs(c.found_v - (c.code === "K-9" ? 1.8 : 3.4 + Number(c.code.slice(2)) / 1000)) < 1e-9), "comma and point are the same");
  check(of("K-7").look === "dent rust" && of("K-8").verdict === "scrap" && of("K-9").verdict === "scrap", JSON.stringify([of("K-7"), of("K-8"), of("K-9")]));
}

/** Damaged slips from a file are left out with a word, and those that an older page kept do not stop the others; labels and empty cells. */
async function damaged() {
  await page.goto(`${server.base}/#/cells/send`);
  const good = { kind: "crate", id: "01234567-89ab-7def-8123-456789abcdef", at: "2026-11-27T10:00:00Z", code: "Z1" };
  const file = (slips) => ({ name: "slips.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify({ format: "lanewick.slips/1", slips })) });
  await page.locator("input[type=file]").setInputFiles(file([{ kind: "cell", id: "x", code: 5 }, null, good, { kind: "reading", id: "r", at: "now", run: "y" }]));
  await page.getByText("1 slip taken over. 3 slips are damaged and were left out: write them down anew.").waitFor();
  await page.evaluate(() => new Promise((done, fail) => {
    const ask = indexedDB.open("lanewick.bench");
    ask.onsuccess = () => {
      const work = ask.result.transaction("queue", "readwrite");
      work.objectStore("queue").put({ n: 1, slip: { kind: "cell", id: "x", code: 5 } });
      work.oncomplete = () => { ask.result.close(); done(null); };
      work.onabort = () => fail(work.error);
    };
  }));
  await page.reload();
  await page.getByText("1 slip is damaged and cannot be sent.").waitFor();
  await page.goto(`${server.base}/#/cells/in`);
  await page.getByLabel("Crate").selectOption("Z1");
  await page.getByRole("button", { name: "Keep, next cell" }).click();
  await until(() => page.getByText("Type the voltage; 0 for a dead cell.").isVisible(), "a cell without voltage needs what is seen");
  await page.getByLabel("Label of this cell").fill("bad label ! é");
  await page.getByLabel("Voltage as found").fill("3.5");
  await page.keyboard.press("Enter");
  await until(() => page.getByText("A label has 1 to 32 letters").isVisible(), "a cell's label is looked at before it is kept");
  await page.getByLabel("Label of this cell").fill("Z1-1");
  await page.getByLabel("Voltage as found").focus();
  await page.keyboard.press("Enter");
  await until(async () => (await stored("Z1-")).length === 1, "it goes to the laptop past the damaged one");
  await page.goto(`${server.base}/#/light`);
  await page.goto(`${server.base}/#/cells/in`);
  await until(async () => await page.getByLabel("Crate").inputValue() === "Z1", "the crate in hand stays in hand");
  await page.getByLabel("Crate").selectOption("K");
  await page.goto(`${server.base}/#/cells/send`);
  page.once("dialog", (dialog) => dialog.accept());
  await page.getByRole("button", { name: "Throw it away" }).click();
  await page.getByText("1 slip is damaged and cannot be sent.").waitFor({ state: "detached" });
}

/** The verdict in the page before sending is that of the laptop after it, word by word. */
async function judged() {
  await one.context.setOffline(true);
  const readings = [["two_pulse", { "Voltage at the small load": "3.95", "Small load (A)": "0,4", "Voltage at the large load": "3.83", "Large load (A)": "2" }],
    ["hold", { "Voltage 24 hours after the charge": "4,12" }], ["charger", { "Capacity as read": "1.95", "Current of its discharge": "0.5" }]];
  await page.goto(`${server.base}/#/cells`);
  await page.getByRole("button", { name: /^K-1:/ }).click();
  await page.getByText("Correct it").click();
  await page.getByLabel("Voltage class").selectOption("4v2");
  await page.getByText("Keep the correction").click();
  await page.getByText("Test it").click();
  for (const [method, numbers] of readings) {
    await page.getByLabel("Test", { exact: true }).selectOption(method);
    for (const [label, value] of Object.entries(numbers)) await page.getByLabel(label).fill(value);
    await page.getByText("Keep it", { exact: true }).click();
    await page.getByText("Undo the last test").waitFor();
  }
  await page.locator(".story").filter({ hasText: "sound" }).first().waitFor();
  const here = await page.locator(".story").first().textContent();
  await both(page, "bench-test");
  await page.goto(`${server.base}/#/cells/send`);
  await until(() => page.getByText("4 slips wait.").isVisible(), "four slips wait while the laptop is away");
  await both(page, "bench-send");
  await one.context.setOffline(false);
  await page.getByText("Everything is at the laptop.").waitFor();
  const cell = (await stored("K-1")).find((c) => c.code === "K-1");
  check(cell.verdict === "sound", JSON.stringify(cell));
  const plain = cell.reasons.replace(/ \((?:[^()]|\([^()]*\))*\)(;|$)/g, "").trim();
  check(here.includes(`sound. ${plain}`), `page "${here}", laptop "${plain}"`);
}

/** A logger's file, judged as it is read: 1 A for an hour and a half, by pencil 5236 s to 3.0 V, 1.4545 Ah. A current step, sample by sample: 140 mV over 2 A. */
async function logged() {
  await page.goto(`${server.base}/#/cells/test/K-3`);
  await page.getByLabel("Test", { exact: true }).selectOption("log");
  await page.getByText("The voltage class of K-3 is not known").waitFor();
  await page.goto(`${server.base}/#/cells/test/K-1`);
  await page.getByLabel("Test", { exact: true }).selectOption("log");
  await page.getByLabel("Samples: seconds").fill("0; 4.05; 1\nno; 3.9; 1");
  await page.getByText("Line 2, “no; 3.9; 1”").waitFor();
  const rows = "Time (min);Voltage;Current (mA)\n0;4,05;-1000\n30;3,75;-1000\n60;3,50;-1000\n90;2,95;-1000\n";
  await page.getByLabel("A logger's file").setInputFiles({ name: "log.csv", mimeType: "text/csv", buffer: Buffer.from(rows) });
  await page.getByText("1.45 Ah drawn so far").waitFor();
  await page.getByText("The discharge stands there with a minus").waitFor();
  await page.reload(); /* the draft outlasts it */
  await page.getByLabel("Test", { exact: true }).selectOption("log");
  const judged = page.locator(".story").filter({ hasText: "1.45 Ah drawn" }).filter({ hasNotText: "not known whether it holds" });
  await judged.waitFor(); /* the earlier tests come from the laptop */
  const story = await judged.textContent();
  check(!story.includes("Its resistance is not tested"), `earlier tests count: ${story}`);
  await both(page, "bench-log");
  await page.getByRole("button", { name: /^Keep this test/ }).click();
  await page.getByText("Undo the last test").waitFor();
  await page.getByLabel("Test", { exact: true }).selectOption("pulse");
  await page.getByLabel("Voltage now").fill("4,00");
  await page.getByLabel("Current now").fill("0");
  await page.keyboard.press("Enter");
  await until(async () => (await page.getByLabel("Samples: seconds").inputValue()) === "0; 4; 0", "a typed sample carries the time of the clock");
  await page.getByLabel("Samples: seconds").fill("0 4.00 0\n1 3.88 2\n10 3.86 2\n12 3.86 2");
  await page.getByText("Resistance 70 ±").waitFor();
  await both(page, "bench-pulse");
  await page.getByRole("button", { name: /^Keep this test/ }).click();
  await until(async () => (await tests("K-1")).filter((test) => ["log", "pulse"].includes(test.method)).length === 2, "log and pulse are at the laptop");
  const of = (method, kind) => kept.find((test) => test.method === method).results.find((r) => r.kind === kind), kept = await tests("K-1");
  check(Math.abs(of("log", "drawn_ah").value - 5236.36 / 3600) < 1e-4, JSON.stringify(kept));
  const { value, sd } = of("log", "capacity_ah"), told = `Capacity ${value.toPrecision(3)} ± ${Number(sd.toPrecision(2))} Ah`;
  check(story.includes(told), `page "${story}", laptop "${told}"`);
  check(Math.abs(of("pulse", "resistance_10s_ohm").value - 0.07) < 1e-9, JSON.stringify(of("pulse", "resistance_10s_ohm")));
  /* more than a slip holds: 7200 samples falling evenly from 4.2 to 2.9 V pass 3.0 V after 12/13 of the two hours */
  await page.getByLabel("Test", { exact: true }).selectOption("log");
  const long = Array.from({ length: 7201 }, (_, i) => `${i},${(4.2 - (1.3 * i) / 7200).toFixed(5)},0.5`).join("\n");
  await page.getByLabel("A logger's file").setInputFiles({ name: "long.csv", mimeType: "text/csv", buffer: Buffer.from(long) });
  await page.getByText("5000 samples are kept, evenly, of 7201").waitFor();
  await page.getByText("0.923 Ah drawn so far").waitFor();
  await one.context.setOffline(true); /* such a test is too long for a code: the page says so and offers the file */
  await page.getByRole("button", { name: /^Keep this test/ }).click();
  await page.getByText("Undo the last test").waitFor();
  await page.goto(`${server.base}/#/cells/send`);
  await page.getByRole("button", { name: "As a run of codes" }).click();
  await page.getByText("1 long test does not fit into a code").waitFor();
  await page.goto(`${server.base}/#/cells/test/K-1`);
  await one.context.setOffline(false);
  await until(async () => (await tests("K-1")).filter((test) => test.method === "log").length === 2, "it goes to the laptop");
  await page.getByLabel("Test", { exact: true }).selectOption("log");
  await page.getByLabel("A logger's file").setInputFiles({ name: "none.csv", mimeType: "text/csv", buffer: Buffer.from("\n") });
}

/** The clock goes on by minutes and no timer rings: a screen that sleeps. (The timers that "fastForward" rings can meet those of the running clock, which then puts it back.) */
const asleep = async (p, minutes) => p.clock.setSystemTime(await p.evaluate((ms) => Date.now() + ms, minutes * 60_000));

/** The clock goes on while the screen sleeps: a reading asked for late carries its own time. */
async function discharge() {
  await page.clock.install();
  await page.goto(`${server.base}/#/cells/test/K-1`);
  await page.getByLabel("Test", { exact: true }).selectOption("resistor");
  await page.getByLabel("Resistor").last().fill("0,05");
  await page.getByText("The resistor is connected now").click();
  await until(() => page.getByLabel("Resistor").last().evaluate((field) => field === document.activeElement), "the field that is marked wrong is shown");
  check((await (await fetch(`${server.base}/api/v1/runs`)).json()).runs.length === 0, "a value that is marked wrong begins nothing");
  await page.getByLabel("Resistor").last().fill("4,02");
  await page.getByLabel("Voltage before connecting").fill("4.12");
  await page.getByText("The resistor is connected now").click();
  await page.getByText("Next reading in").waitFor();
  const read = async (volts) => { await page.getByLabel("Voltage under load").fill(volts); await page.keyboard.press("Enter"); await page.getByText(`${volts} V`, { exact: false }).first().waitFor(); };
  await page.clock.fastForward(10_000);
  await page.getByText("Read K-1 now.").waitFor();
  const began = Date.now(), since = (ms) => (Date.now() - ms) / 1000; /* beside its sleep the clock goes on as ours does, fast or slow */
  await read("4.02");
  await asleep(page, 30); /* asleep for half an hour, past the time of asking */
  await page.getByText("Read K-1 now.").waitFor();
  await both(page, "bench-run");
  await read("3.8");
  const half = 1800 + since(began);
  await page.reload(); /* closed and opened again */
  await page.getByText("Discharge of").or(page.getByRole("heading", { name: /^K-1, / })).first().waitFor();
  const two = await otherHands();
  let last = 0;
  for (const volts of ["3.54", "3.34"]) { await asleep(page, 30); last = Date.now(); await read(volts); }
  await asleep(page, 15);
  await page.getByLabel("Voltage under load").fill("3,0");
  await page.keyboard.press("Enter");
  await page.getByText("Disconnect the resistor now").waitFor();
  const quarter = 900 + since(last);
  await both(page, "bench-run-end");
  await page.getByText("It is disconnected").click();
  await asleep(page, 1);
  await page.getByLabel("Voltage a minute after disconnecting").fill("3.12");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: /^K-1, / }).waitFor({ state: "detached" });
  await until(async () => JSON.parse(await (await fetch(`${server.base}/api/v1/cells/K-1/tests`)).text()).tests.some((t) => t.method === "resistor"), "the discharge is at the laptop");
  const { tests } = await (await fetch(`${server.base}/api/v1/cells/K-1/tests`)).json(), run = tests.find((t) => t.method === "resistor");
  const { times_s, volts_v } = run.readings, gaps = times_s.map((t, i) => t - (times_s[i - 1] ?? 0));
  check(volts_v.join() === "4.02,3.8,3.64,3.54,3.34,3", JSON.stringify(run.readings));
  check(gaps[1] > 1799 && gaps[1] < half + 1 && gaps[5] > 899 && gaps[5] < quarter + 1, `half an hour, at most ${half} s, and a quarter, at most ${quarter} s: ${times_s}`);
  const drawn = gaps.reduce((sum, gap, i) => sum + (gap * (volts_v[i] + (volts_v[i - 1] ?? volts_v[i]))) / 2, 0) / 4.02 / 3600; /* trapezoids, as in the example of docs/crate.md */
  check(Math.abs(run.results.find((r) => r.kind === "drawn_ah").value - drawn) < 0.002, `${drawn} Ah: ${JSON.stringify(run.results)}`);
  await tooLate(two);
}

/** Another phone sees the discharge that this one began, takes the next reading and takes a wrong one back; this one sees it. */
async function otherHands() {
  const two = await phone();
  await asleep(page, 30);
  await two.page.clock.install({ time: await page.evaluate(() => Date.now()) });
  await two.page.goto(`${server.base}/#/cells/test/K-1`);
  await two.page.getByText("Read K-1 now.").waitFor();
  const seen = await two.page.getByRole("region", { name: "Discharge of K-1" }).textContent();
  check(/4.02 V · .*3.8 V/.test(seen), `the other phone sees both readings: ${seen}`);
  for (const volts of ["1.11", "3.64"]) {
    await two.page.getByLabel("Voltage under load").fill(volts);
    await two.page.keyboard.press("Enter");
    await two.page.getByText(`${volts} V`, { exact: false }).first().waitFor();
    if (volts !== "1.11") continue;
    await two.page.getByRole("button", { name: "Take the last reading back" }).click();
    await two.page.getByText("1.11 V", { exact: false }).first().waitFor({ state: "detached" });
  }
  await until(async () => (await (await fetch(`${server.base}/api/v1/runs`)).json()).runs[0].readings.map((r) => r.volts).join() === "4.02,3.8,3.64", "the reading of the other phone is at the laptop");
  await page.clock.fastForward(10_000);
  await page.getByText("3.64 V", { exact: false }).first().waitFor();
  await two.context.setOffline(true);
  return two;
}

/** It still shows the discharge that was finished while it was away: its reading waits for a person, and nothing is lost unseen. */
async function tooLate(two) {
  await two.page.getByLabel("Voltage under load").fill("2.9");
  await two.page.keyboard.press("Enter");
  await two.context.setOffline(false);
  await two.page.clock.fastForward(10_000);
  await two.page.goto(`${server.base}/#/cells/send`);
  await two.page.getByText("This discharge was finished or thrown away already").waitFor();
  await accessible(two.page, "bench-late");
  await two.stop();
}

/** Two phones, one cell: other fields go together, the same field waits for a person and shows both. */
async function twoPhones() {
  const two = await phone();
  await two.page.goto(`${server.base}/#/cells`);
  await two.page.getByRole("button", { name: /^K-2:/ }).waitFor();
  await page.goto(`${server.base}/#/cells`);
  const correct = async (p, label, text) => {
    await p.getByRole("button", { name: /^K-2:/ }).click();
    await p.getByText("Correct it").click();
    await p.getByLabel(label).fill(text);
    await p.getByText("Keep the correction").click();
  };
  await one.context.setOffline(true);
  await two.context.setOffline(true);
  await correct(page, "Marking, as printed on the cell", "ICR-A");
  await correct(two.page, "Marking, as printed on the cell", "ICR-B");
  await correct(two.page, "Note", "by the second phone");
  await one.context.setOffline(false);
  await page.goto(`${server.base}/#/cells/send`);
  await page.getByText("Everything is at the laptop.").waitFor();
  await two.context.setOffline(false);
  await two.page.goto(`${server.base}/#/cells/send`);
  await two.page.getByText("was written otherwise meanwhile").waitFor();
  await until(() => two.page.locator("table").textContent().then((t) => t.includes("ICR-A") && t.includes("ICR-B")), "both versions are shown");
  check((await stored("K-2"))[0].marking === "ICR-A" && !(await stored("K-2"))[0].note, "nothing is overwritten, the later note waits");
  await until(() => two.page.getByText("1 slip waits.").isVisible(), "the note waits behind it");
  await both(two.page, "bench-conflict");
  await two.page.getByText("What I wrote counts").click();
  await two.page.getByText("Everything is at the laptop.").waitFor();
  const cell = (await stored("K-2"))[0];
  check(cell.marking === "ICR-B" && cell.note === "by the second phone", JSON.stringify(cell));
  await two.context.setOffline(true);
  await one.context.setOffline(true);
  for (const [p, volts] of [[page, "3.11"], [two.page, "3.22"]]) {
    await p.goto(`${server.base}/#/cells/in`);
    await p.getByLabel("Label of this cell").fill("TWIN");
    await p.getByLabel("Voltage as found").fill(volts);
    await p.keyboard.press("Enter");
    await p.getByText("TWIN", { exact: true }).first().waitFor();
  }
  await one.context.setOffline(false);
  await until(async () => (await stored("TWIN")).length === 1, "the first TWIN is at the laptop");
  await two.context.setOffline(false);
  await two.page.goto(`${server.base}/#/cells/send`);
  await two.page.getByText("There is a cell TWIN already").waitFor();
  await two.page.getByLabel("It is another cell: its new label").fill("TWIN-2");
  await two.page.getByText("Keep it under the new label").click();
  await two.page.getByText("Everything is at the laptop.").waitFor();
  const twins = await stored("TWIN");
  check(twins.length === 2 && twins.find((c) => c.code === "TWIN").found_v === 3.11 && twins.find((c) => c.code === "TWIN-2").found_v === 3.22, JSON.stringify(twins));
  await two.stop();
}

/** The laptop's view for phones: a code for one, and the owner's passphrase, after which this laptop alone lets nobody in. */
async function phones() {
  await page.goto(`${server.base}/#/plans`);
  await page.getByRole("link", { name: "Phones of the workshop" }).click();
  await page.getByLabel("This phone may").selectOption("planner");
  await page.getByRole("button", { name: "Open a code" }).click();
  await page.getByText("lanewick serve --lan").waitFor();
  check(/^[2-9A-Z]{4}-[2-9A-Z]{4}$/.test(await page.locator(".bigcode").textContent()), "a code to type");
  await both(page, "bench-phones");
  await page.getByText("Passphrase of the owner").click();
  await page.getByLabel("The new one").fill("short");
  await page.getByRole("button", { name: "Keep this passphrase" }).click();
  await page.getByText("it needs at least").waitFor();
  await page.getByLabel("The new one").fill("four words of ours");
  await page.getByRole("button", { name: "Keep this passphrase" }).click();
  await page.getByLabel("Passphrase of the owner").waitFor(); /* from now on asked for */
  await page.getByLabel("Passphrase of the owner").fill("four words of theirs");
  await page.getByRole("button", { name: "Go on as the owner" }).click();
  await page.getByText("This is not right").waitFor();
  await page.getByLabel("Passphrase of the owner").fill("four words of ours");
  await page.getByRole("button", { name: "Go on as the owner" }).click();
  await page.getByText("owner: do everything (owner)").waitFor();
  await page.goto(`${server.base}/phones`); /* the short name leads to it */
  await page.getByRole("heading", { name: "Phones of the workshop" }).waitFor();
  await page.evaluate(() => localStorage.setItem("lanewick.token", "0123456789abcdef")); /* as one that has ended */
  await page.goto(`${server.base}/#/cells`);
  await page.reload();
  await page.getByRole("button", { name: /^K-1:/ }).waitFor();
}

for (const part of [first, thirty, damaged, judged, logged, discharge, twoPhones, phones]) {
  try { await part(); } catch (error) { check(false, `${part.name}: ${error.message.slice(0, 400)}`); await page.screenshot({ path: `${folder}/fault-${part.name}.png` }); }
}
await page.goto(`${server.base}/#/cells`);
await page.getByRole("button", { name: /^K-1:/ }).waitFor();
await both(page, "bench-tray");
check(crate("check").status === 0, "the store is sound");
check(complaints.length === 0, `the browser complains: ${[...new Set(complaints)].join("; ")}`);
await one.stop();
await server.stop();
end();
