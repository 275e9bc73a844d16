# SPDX-License-Identifier: GPL-3.0-or-later
"""What the checks share: the project's files and one way to count; the last line printed is 'N passed, N failed'."""
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
passed = failed = 0


def check(good, message):
    global passed, failed
    if good:
        passed += 1
    else:
        failed += 1
        print(f"FAIL {message}")
    return good


def end():
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed or not passed else 0)


def files(*patterns):
    """Files of the project that git knows or would take, by pattern (as git understands them), relative to its top."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z", "--", *patterns]
    run = subprocess.run(command, cwd=ROOT, capture_output=True)
    if run.returncode == 0:
        names = {name for name in run.stdout.decode().split("\0") if name}
    else:  # a copy without its history
        names = {str(path.relative_to(ROOT)) for pattern in patterns for path in ROOT.rglob(pattern)
                 if not path.relative_to(ROOT).parts[0].startswith(("build", "out", "."))}
    return sorted(name for name in names if (ROOT / name).is_file())


def text(name):
    return (ROOT / name).read_text(encoding="utf-8")


def bare_code(source):
    """C without comments and the insides of strings and characters; line numbers stay."""
    pattern = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)

    def blank(match):
        word = match.group(0)
        if word.startswith("/"):
            return "\n" * word.count("\n") or " "
        return word[0] * 2
    return pattern.sub(blank, source)


def run(*command, **options):
    return subprocess.run([str(word) for word in command], cwd=options.pop("cwd", ROOT), capture_output=True, text=True,
                          **options)
