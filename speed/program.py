#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The whole program from outside: start-up, the demo plan and the most memory that it takes (Linux)."""
import os
import pathlib
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build") / "lanewick"


def best(repeats, *words):
    """Least seconds of some runs, and the most memory in MB of the last."""
    least, most = float("inf"), 0.0
    for _ in range(repeats):
        began = time.perf_counter()
        child = subprocess.Popen([PROGRAM, *words], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(child.pid, 0)
        if status:
            return None, None
        least, most = min(least, time.perf_counter() - began), usage.ru_maxrss / 1024
    return least, most


for group, repeats, words in (
    ("start_up", 20, ["figure", "normal_quantile", "probability=0.95"]),
    ("list_of_figures", 20, ["figure"]),
    ("demo_plan", 3, ["plan", "demo/nsungwi.json", "--json"]),
):
    seconds, memory = best(repeats, *words)
    if seconds is not None:
        print(f"result {group} program {seconds:.6f}")
        print(f"{group}: at most {memory:.1f} MB of memory")
