#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes outlines.txt from a TopoJSON file of countries: coasts as closed rings, borders as open lines, simplified.

usage: outline.py countries-50m.json land-50m.json outlines.txt
A line: L (land) or B (border), then pairs of steps in units of 0.02 degree, longitude and latitude, the first from 0, 0.
Each number n is written by letters of five bits each, the lowest first, 0x20 says that more follow, plus 35; n is
2n for n >= 0 and -2n - 1 below. Lines whose points all lie within TOLERANCE_DEG of a straight one are drawn straight.
"""
import json
import sys

UNIT_DEG, TOLERANCE_DEG, LEAST_ISLAND_DEG = 0.02, 0.03, 0.03


def arcs_of(topology):
    (sx, sy), (tx, ty) = topology["transform"]["scale"], topology["transform"]["translate"]
    arcs = []
    for arc in topology["arcs"]:
        x = y = 0
        points = []
        for dx, dy in arc:
            x, y = x + dx, y + dy
            points.append((x * sx + tx, y * sy + ty))
        arcs.append(points)
    return arcs


def rings_of(geometry):
    """Lists of arc numbers, each a ring."""
    if geometry["type"] == "Polygon":
        return geometry["arcs"]
    if geometry["type"] == "MultiPolygon":
        return [ring for polygon in geometry["arcs"] for ring in polygon]
    return [ring for part in geometry.get("geometries", []) for ring in rings_of(part)]


def joined(ring, arcs):
    points = []
    for number in ring:
        arc = arcs[number] if number >= 0 else arcs[~number][::-1]
        points += arc[1:] if points else arc
    return points


def simplified(points):
    """Douglas & Peucker 1973."""
    keep, stack = {0, len(points) - 1}, [(0, len(points) - 1)]
    while stack:
        first, last = stack.pop()
        (ax, ay), (bx, by) = points[first], points[last]
        length, far, place = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5, 0.0, 0
        for i in range(first + 1, last):
            x, y = points[i]
            off = abs((bx - ax) * (ay - y) - (ax - x) * (by - ay)) / length if length > 1e-9 else ((x - ax) ** 2 + (y - ay) ** 2) ** 0.5
            if off > far:
                far, place = off, i
        if far > TOLERANCE_DEG:
            keep.add(place)
            stack += [(first, place), (place, last)]
    return [points[i] for i in sorted(keep)]


def letters(number):
    rest, text = number * 2 if number >= 0 else -number * 2 - 1, ""
    while True:
        rest, low = divmod(rest, 32)
        text += chr(35 + low + (32 if rest else 0))
        if not rest:
            return text


def line_of(kind, points):
    text, x, y = kind, 0, 0
    for lon, lat in points:
        nx, ny = round(lon / UNIT_DEG), round(lat / UNIT_DEG)
        if text != kind and (nx, ny) == (x, y):
            continue
        text += letters(nx - x) + letters(ny - y)
        x, y = nx, ny
    return text


def big_enough(points):
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return max(max(xs) - min(xs), max(ys) - min(ys)) >= LEAST_ISLAND_DEG


def main():
    countries, land = (json.load(open(path, encoding="utf-8")) for path in sys.argv[1:3])
    lines, coasts = [], arcs_of(land)
    for geometry in land["objects"]["land"]["geometries"]:
        for ring in rings_of(geometry):
            points = joined(ring, coasts)
            if big_enough(points):
                lines.append(line_of("L", simplified(points)))
    users = {}
    for country, geometry in enumerate(countries["objects"]["countries"]["geometries"]):
        for ring in rings_of(geometry):
            for number in ring:
                users.setdefault(number if number >= 0 else ~number, set()).add(country)
    arcs = arcs_of(countries)
    lines += [line_of("B", simplified(arcs[number])) for number, two in sorted(users.items()) if len(two) > 1]
    with open(sys.argv[3], "w", encoding="ascii") as out:
        out.write("\n".join(lines) + "\n")


main()
