#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The energy bucket over 1,000 years of hours in plain vectorised numpy: a loop over hours, years as vectors.

The same order of things and the same lamp as tests/lamps/a.json; the panel's output is made from one real year, scaled so
that no year is like another. The year runs once: the warming-up year of lanewick is left out in numpy's favour.
"""
import time

import numpy as np

YEARS, HOURS = 1000, 8760
rows = [line.split(",") for line in open("tests/data/weather/guam-andersen.csv") if line[0].isdigit()]
ghi = np.array([float(row[3]) for row in rows], dtype=np.float32)
air = np.array([float(row[6]) for row in rows], dtype=np.float32)
scale = (0.9 + 0.001 * (np.arange(YEARS) * 37 % 128)).astype(np.float32)
hour = np.arange(HOURS) % 24
dark = np.where((hour < 6) | (hour >= 18), np.float32(1.0), np.float32(0.0))


def year():
    """Dark nights of all years."""
    charge = np.full(YEARS, 34.0, dtype=np.float32)
    missing = np.zeros((366, YEARS), dtype=np.float32)
    wanted = np.zeros(366, dtype=np.float32)
    for h in range(HOURS):
        sun = ghi[h] * scale
        panel = 7e-3 * sun * (1.0 - 0.0043 * (air[h] + sun / 45.0 - 25.0)) * (0.95 * 0.98 * 0.93)
        charge *= 1.0 - 0.03 / 720.0
        light = 1.6 / 0.88 * dark[h]
        need = light + 0.03
        direct = np.minimum(panel, need)
        charge += np.minimum((panel - direct) * 0.97, 34.0 - charge)
        rest = need - direct
        given = np.minimum(rest, charge * 0.97)
        charge -= given / 0.97
        night = (h + 12) // 24
        missing[night] += np.minimum(rest - given, light)
        wanted[night] += light
    return (missing > 0.01 * wanted[:, None]).sum(axis=0)


best = float("inf")
for _ in range(3):
    start = time.process_time()
    count = year()
    best = min(best, time.process_time() - start)
print(f"result bucket_1000_years numpy {best:.6f}")
print(f"numpy: {count.mean():.1f} dark nights a year")
