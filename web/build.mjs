// SPDX-License-Identifier: GPL-3.0-or-later
// Writes the page to a folder: node build.mjs [FOLDER] (dist without one). Nothing in it comes from anywhere else.
import { build } from "esbuild";
import { copyFileSync, mkdirSync, rmSync } from "node:fs";

const out = process.argv[2] ?? "dist";
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
await build({
  entryPoints: { page: "src/main.tsx", away: "src/away.ts" },
  outdir: out, bundle: true, minify: true, format: "esm", target: "es2020", charset: "utf8", legalComments: "none",
  jsx: "automatic", jsxImportSource: "preact", logLevel: "warning",
});
await build({ entryPoints: ["style.css"], outfile: `${out}/page.css`, minify: true, logLevel: "warning" });
for (const file of ["index.html", "lamp.svg", "page.webmanifest"]) copyFileSync(file, `${out}/${file}`);
