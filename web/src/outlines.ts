// SPDX-License-Identifier: GPL-3.0-or-later
// Reads the outlines of land and borders (data/map/README.md says how they are written). Fetched once, when a map is shown.
import { textFile } from "./carried";

export interface Line { land: boolean; points: number[]; west: number; east: number; south: number; north: number }
export interface Outlines { lines: Line[] }
const UNIT_DEG = 0.02;

function lineOf(text: string): Line {
  const points: number[] = [];
  let x = 0, y = 0, at = 1;
  const next = (): number => {
    let value = 0, shift = 0, letter: number;
    do {
      letter = text.charCodeAt(at++) - 35;
      value += (letter & 31) << shift;
      shift += 5;
    } while (letter & 32);
    return value & 1 ? -((value + 1) >> 1) : value >> 1;
  };
  const line: Line = { land: text[0] === "L", points, west: Infinity, east: -Infinity, south: 90, north: -90 };
  while (at < text.length) {
    x += next();
    y += next();
    const lat = y * UNIT_DEG, before = points[points.length - 2] ?? x * UNIT_DEG;
    /* A coast that crosses 180 degrees goes on beyond it, not back round the Earth. */
    const lon = x * UNIT_DEG + 360 * Math.round((before - x * UNIT_DEG) / 360);
    points.push(lon, lat);
    line.west = Math.min(line.west, lon);
    line.east = Math.max(line.east, lon);
    line.south = Math.min(line.south, lat);
    line.north = Math.max(line.north, lat);
  }
  return line;
}

/** A slow phone must feel a tap meanwhile: the work goes in short pieces. */
const PIECE_MS = 12;
async function all(text: string): Promise<Line[]> {
  const lines: Line[] = [];
  let began = performance.now();
  for (const line of text.split("\n")) {
    if (line) lines.push(lineOf(line));
    if (performance.now() - began > PIECE_MS) {
      await new Promise((done) => setTimeout(done, 0));
      began = performance.now();
    }
  }
  return lines;
}

let kept: Promise<Outlines> | null = null;
export function outlines(): Promise<Outlines> {
  kept ??= textFile("/outlines.txt").then(async (text) => ({ lines: await all(text) }));
  kept.catch(() => { kept = null; });
  return kept;
}
