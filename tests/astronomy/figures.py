# SPDX-License-Identifier: GPL-3.0-or-later
"""Random places and instants, and the figures of the program for many of them at once."""
import datetime
import json
import math
import random
import subprocess

START, END = datetime.datetime(1980, 1, 1), datetime.datetime(2060, 1, 1)


def places(count, seed):
    """Evenly over the globe, with the tropics, both polar circles and the poles themselves well hit."""
    draw = random.Random(seed)
    for i in range(count):
        lat = math.degrees(math.asin(draw.uniform(-1.0, 1.0)))
        if i % 4 == 1:
            lat = draw.uniform(-23.5, 23.5)
        elif i % 10 == 2:
            lat = draw.choice((-1, 1)) * draw.uniform(64.0, 89.9)
        second = draw.randrange(int((END - START).total_seconds()))
        yield round(lat, 5), round(draw.uniform(-180.0, 180.0), 5), round(draw.uniform(0.0, 4500.0), 1), \
            START + datetime.timedelta(seconds=second)


def answers(program, figure, inputs):
    lines = "".join(json.dumps(one) + "\n" for one in inputs)
    done = subprocess.run([program, "figure", figure, "--batch"], input=lines, capture_output=True, text=True, check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


def direction(zenith_deg, azimuth_deg):
    z, a = math.radians(zenith_deg), math.radians(azimuth_deg)
    return math.cos(z), math.sin(z) * math.sin(a), math.sin(z) * math.cos(a)


def apart_deg(a, b):
    return math.degrees(math.dist(a, b))
