// SPDX-License-Identifier: GPL-3.0-or-later
// Writes the page to a folder: node build.mjs [FOLDER] [CORE.wasm]. Without a core the laptop computes what the page asks.
// Nothing in it comes from anywhere else.
import { build } from "esbuild";
import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
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
const outputs = Object.entries(page.metafile.outputs);
/* The first screen's parts are named in the page itself, so that a slow line fetches them at once and not one after the other. */
const needed = new Set();
const add = (file) => {
  if (needed.has(file)) return;
  needed.add(file);
  for (const part of page.metafile.outputs[file].imports) if (part.kind === "import-statement") add(part.path);
};
for (const [file, about] of outputs) if (["src/begin.ts", "src/main.tsx"].includes(about.entryPoint)) add(file);
const links = [...needed].filter((file) => relative(out, file) !== "page.js").map((file) => `<link rel="modulepreload" href="/${relative(out, file)}">`);
writeFileSync(`${out}/index.html`, readFileSync("index.html", "utf8").replace("</head>", `${links.join("\n")}\n</head>`));
for (const file of ["lamp.svg", "page.webmanifest"]) copyFileSync(file, `${out}/${file}`);
copyFileSync("../data/map/outlines.txt", `${out}/outlines.txt`);
/* The single-file page: one script, put together with its files by the program (serve/single.c). */
await build({ ...common, entryPoints: { single: "src/begin.ts" }, outdir: out, format: "iife" });
copyFileSync("single.html", `${out}/single.html`);
/* Computes beside the page. */
await build({ ...common, entryPoints: ["src/beside.ts"], outdir: out, format: "iife" });
if (core) copyFileSync(core, `${out}/core.wasm`);

/* What the service worker keeps from the start; the core is kept when it comes. */
const files = ["/", "/page.css", "/lamp.svg", "/page.webmanifest", "/beside.js", "/words/list.json", "/built-in/demo/nsungwi.json", ...outputs.map(([file]) => `/${relative(out, file)}`)];
await build({ ...common, entryPoints: { away: "src/away.ts" }, outdir: out, format: "esm", define: { FILES: JSON.stringify(files) } });
