// SPDX-License-Identifier: GPL-3.0-or-later
// Writes the page to a folder: node build.mjs [FOLDER] [CORE.wasm]. Without a core the laptop computes what the page asks.
// Nothing in it comes from anywhere else.
import { build } from "esbuild";
import { copyFileSync, mkdirSync, rmSync } from "node:fs";
import { relative } from "node:path";

const [out = "dist", core] = process.argv.slice(2);
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
const common = {
  bundle: true, minify: true, target: "es2020", charset: "utf8", legalComments: "none", jsx: "automatic", jsxImportSource: "preact", logLevel: "warning",
};
const page = await build({
  ...common, entryPoints: { page: "src/begin.ts" }, outdir: out, format: "esm", splitting: true, chunkNames: "part-[hash]", metafile: true,
});
await build({ ...common, entryPoints: ["style.css"], outfile: `${out}/page.css` });
const still = ["index.html", "lamp.svg", "page.webmanifest"];
for (const file of still) copyFileSync(file, `${out}/${file}`);
copyFileSync("../data/map/outlines.txt", `${out}/outlines.txt`);
/* The single-file page: one script, put together with its files by the program (serve/single.c). */
await build({ ...common, entryPoints: { single: "src/begin.ts" }, outdir: out, format: "iife" });
copyFileSync("single.html", `${out}/single.html`);
if (core) copyFileSync(core, `${out}/core.wasm`);

/* What the service worker keeps from the start; the core is kept when it comes. */
const files = ["/", "/page.css", "/lamp.svg", "/page.webmanifest", "/words/list.json", ...Object.keys(page.metafile.outputs).map((file) => `/${relative(out, file)}`)];
await build({ ...common, entryPoints: { away: "src/away.ts" }, outdir: out, format: "esm", define: { FILES: JSON.stringify(files) } });
