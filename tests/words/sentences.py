#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Finished sentences in another language: the program (words/sentence.c) and the page (web/src/sentence.ts) say what the
table sentences.json says, and alike; and every text of the real catalogues that has places is found again when it is filled.
usage: sentences.py COMPILER"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "scripts"))
from tally import ROOT, check, end

ESBUILD = ROOT / "web/node_modules/.bin/esbuild"
PLACE = re.compile(r"%[-+0#]*[\d*]*(?:\.[\d*]*)?[hlzjt]*([diuoxXfFeEgGcs%])")
MAIN = """
#include "lanewick/words.h"
#include <stdio.h>
#include <string.h>
int main(int argc, char **argv)
{
    static char line[100000], said[200000];
    const lw_words *words = argc == 2 ? lw_words_find(argv[1]) : NULL;
    while (words && fgets(line, sizeof line, stdin)) {
        line[strcspn(line, "\\n")] = '\\0';
        lw_say_sentence(words, line, said, sizeof said);
        puts(said);
    }
    return !words;
}
"""
NODE = """
import { Sentences } from "./sentence.mjs";
import { readFileSync } from "node:fs";
const { texts, decimal, lines } = JSON.parse(readFileSync(0, "utf8"));
const sentences = new Sentences(decimal);
sentences.add(texts);
console.log(JSON.stringify(lines.map((line) => sentences.say(line))));
"""


def po_text(text):
    return json.dumps(text, ensure_ascii=False)


def program(folder, compiler, catalogues):
    """A small program that says each line of its input in the language that it is given."""
    (folder / "main.c").write_text(MAIN, encoding="utf-8")
    run = subprocess.run([ROOT / "scripts/words", "--every", folder / "tables.c"], env=os.environ | {"LANEWICK_PO": str(catalogues)},
                         capture_output=True, text=True)
    check(run.returncode == 0, f"tables: {run.stderr}")
    built = subprocess.run([compiler, "-std=c17", "-O1", "-Wall", "-Wextra", "-Werror", f"-I{ROOT}/include", "-o", folder / "say", folder / "main.c",
                            folder / "tables.c", *sorted((ROOT / "words").glob("*.c"))], capture_output=True, text=True)
    check(built.returncode == 0, f"program: {built.stderr}")

    def say(code, lines):
        run = subprocess.run([folder / "say", code], input="\n".join(lines) + "\n", capture_output=True, text=True)
        return run.stdout.split("\n")[:-1]
    return say


def page(folder):
    """The same in the page's way; None where its tools are not there."""
    if not ESBUILD.exists():
        return None
    run = subprocess.run([ESBUILD, ROOT / "web/src/sentence.ts", "--format=esm", f"--outfile={folder}/sentence.mjs"], capture_output=True, text=True)
    check(run.returncode == 0, f"the page's sentences: {run.stderr}")
    (folder / "ask.mjs").write_text(NODE, encoding="utf-8")

    def say(texts, lines, decimal="."):
        run = subprocess.run(["node", folder / "ask.mjs"], input=json.dumps({"texts": texts, "decimal": decimal, "lines": lines}), capture_output=True, text=True)
        return json.loads(run.stdout) if run.returncode == 0 else [run.stderr]
    return say


def compare(what, cases, said):
    check(len(said) == len(cases), f"{what}: {len(said)} answers to {len(cases)} sentences: {said[:1]}")
    for (english, expected), got in zip(cases, said):
        check(got == expected, f"{what}: {english!r} gives {got!r}, not {expected!r}")


def table(folder, compiler):
    data = json.loads((HERE / "sentences.json").read_text(encoding="utf-8"))
    (folder / "po").mkdir()
    head = 'msgid ""\nmsgstr "Language-Name: X\\nPlural-Forms: nplurals=2; plural=n > 1;\\n"\n'
    (folder / "po/xx.po").write_text(head + "".join(f"\nmsgid {po_text(k)}\nmsgstr {po_text(v)}\n" for k, v in data["texts"].items()), encoding="utf-8")
    lines = [english for english, _ in data["cases"]]
    compare("program", data["cases"], program(folder, compiler, folder / "po")("xx", lines))
    say = page(folder)
    if say:
        compare("page", data["cases"], say(data["texts"], lines))
        compare("page, decimal comma", data["decimal"], say(data["texts"], [english for english, _ in data["decimal"]], ","))


def filled(text, i):
    """The text as the core would finish it, and whether a place stands in it."""
    values = iter(range(100))

    def value(match):
        kind, n = match.group(1), next(values)
        return "%" if kind == "%" else f"Zq{n}x{i}" if kind == "s" else "K" if kind == "c" else str(7 + n)
    return PLACE.sub(value, text)


def whole(folder, compiler):
    """Each text with places of the real catalogues, filled, is said by a translation and not left in English."""
    texts = json.loads(subprocess.run([ROOT / "scripts/words", "--json"], capture_output=True, text=True).stdout)
    say = program(folder, compiler, ROOT / "po")
    ask = page(folder)
    for code, entries in texts.items():
        keys = [k for k, v in entries.items() if "\n" not in k + v and k == k.strip(" ,;:(") and PLACE.search(k) and len(re.findall("[A-Za-z]", PLACE.sub("", k))) >= 12]
        lines = [filled(key, i) for i, key in enumerate(keys)]
        said = say(code, lines)
        same = [line for line, got, key in zip(lines, said, keys) if got == line and entries[key] != key]
        check(len(same) <= len(keys) // 200, f"{code}: {len(same)} of {len(keys)} filled texts are not found again: {same[:5]}")
        if ask:
            other = [(a, b) for a, b in zip(said, ask(entries, lines)) if a != b]
            check(not other, f"{code}: program and page differ in {len(other)} of {len(keys)}: {other[:3]}")


def main():
    for test in (table, whole):
        with tempfile.TemporaryDirectory() as folder:
            test(pathlib.Path(folder), sys.argv[1])
    end()


main()
