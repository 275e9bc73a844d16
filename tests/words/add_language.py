#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A language more is one file more: a catalogue of a language with three plurals is put beside the others, and the
program's tables and the page's files have it. Plurals are judged by Python's own gettext.
usage: add_language.py COMPILER"""
import gettext
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "scripts"))
from tally import ROOT, check, end

RULES = {  # GNU gettext manual, "Plural forms"
    "pl": "nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2;",
    "lt": "nplurals=3; plural=n%10==1 && n%100!=11 ? 0 : n%10>=2 && (n%100<10 || n%100>=20) ? 1 : 2;",
    "sl": "nplurals=4; plural=n%100==1 ? 0 : n%100==2 ? 1 : n%100==3 || n%100==4 ? 2 : 3;",
    "ja": "nplurals=1; plural=0;",
}
MAIN = """
#include "lanewick/words.h"
#include <stdio.h>
#include <stdlib.h>
int main(int argc, char **argv)
{
    const lw_words *words = lw_words_find(argv[1]);
    if (!words || argc != 2)
        return 1;
    puts(words->name);
    puts(lw_say(words, "Summary"));
    puts(lw_say(words, "not in any catalogue"));
    for (size_t n = 0; n < 1300; n++)
        puts(lw_say_many(words, "%zu page", "%zu pages", n));
    return 0;
}
"""


def words(folder, *arguments):
    return subprocess.run([ROOT / "scripts/words", *arguments], env=os.environ | {"LANEWICK_PO": str(folder)}, capture_output=True, text=True)


def catalogue(code, rule):
    forms = int(rule[9])
    lines = ['msgid ""', 'msgstr ""', '"Content-Type: text/plain; charset=UTF-8\\n"', f'"Plural-Forms: {rule}\\n"', f'"Language-Name: Tongue {code}\\n"',
             "", 'msgid "Summary"', f'msgstr "ß {code}"', "", 'msgid "Language"', 'msgstr "ł"', "", 'msgid "%zu page"', 'msgid_plural "%zu pages"']
    return "\n".join(lines + [f'msgstr[{i}] "form {i}"' for i in range(forms)]) + "\n"


def added(folder, code, rule, compiler):
    shutil.copytree(ROOT / "po", folder / "po")
    (folder / "po" / f"{code}.po").write_text(catalogue(code, rule), encoding="utf-8")
    run = words(folder / "po", "--page", folder / "page")
    page = json.loads((folder / "page" / f"{code}.json").read_text(encoding="utf-8"))
    listed = json.loads((folder / "page" / "list.json").read_text(encoding="utf-8"))
    check(run.returncode == 0 and {"code": code, "name": f"Tongue {code}"} in listed, f"{code}: the page's list is {listed}")
    check(page["texts"] == {"Language": "ł"}, f"{code}: the page holds other texts than its own: {page['texts']}")
    run = words(folder / "po", folder / "tables.c")
    (folder / "main.c").write_text(MAIN, encoding="utf-8")
    built = subprocess.run([compiler, "-std=c17", "-Wall", "-Wextra", "-Werror", f"-I{ROOT}/include", "-o", folder / "say",
                            folder / "main.c", folder / "tables.c", ROOT / "words/words.c"], capture_output=True, text=True)
    check(run.returncode == 0 and built.returncode == 0, f"{code}: {run.stderr}{built.stderr}")
    said = subprocess.run([folder / "say", code], capture_output=True, text=True).stdout.splitlines()
    check(said[:3] == [f"Tongue {code}", f"ß {code}", "not in any catalogue"], f"{code}: {said[:3]}")
    reference = gettext.c2py(rule.partition("plural=")[2].rstrip(";"))
    wrong = [n for n in range(1300) if said[3 + n] != f"form {reference(n)}"]
    check(not wrong, f"{code}: other plurals than gettext for {wrong[:5]}")
    wrong = [n for n in range(1300) if int(page["plural"][n if n < 200 else 100 + n % 100]) != reference(n)]
    check(not wrong, f"{code}: the page has other plurals for {wrong[:5]}")


def wrong_files(folder):
    good = catalogue("xx", RULES["pl"])
    for what, text in (("a line of no catalogue", good + "nonsense\n"), ("a text twice", good + good[good.index('msgid "Summary"'):]),
                       ("no plural rule", good.replace("Plural-Forms", "Plural")), ("a rule that calls", good.replace("n==1", "exit(1)"))):
        shutil.rmtree(folder / "po", ignore_errors=True)
        (folder / "po").mkdir(parents=True)
        (folder / "po" / "xx.po").write_text(text, encoding="utf-8")
        run = words(folder / "po", folder / "out.c")
        check(run.returncode != 0 and "xx.po" in run.stderr, f"{what}: {run.returncode} {run.stderr}")


def main():
    for code, rule in RULES.items():
        with tempfile.TemporaryDirectory() as folder:
            added(pathlib.Path(folder), code, rule, sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        wrong_files(pathlib.Path(folder))
    end()


main()
