// SPDX-License-Identifier: GPL-3.0-or-later
// The skyline as a brief keeps it: 36 heights in degrees, every 10 degrees from north, clockwise. Pure functions.

export const DIRECTIONS = 36;
const turn = (i: number): number => ((i % DIRECTIONS) + DIRECTIONS) % DIRECTIONS;

/** Marked directions keep their heights; those between two marks lie on the straight line between them. */
export function between(marks: Map<number, number>): number[] {
  const at = [...marks.keys()].sort((a, b) => a - b);
  if (at.length === 0) return new Array<number>(DIRECTIONS).fill(0);
  return Array.from({ length: DIRECTIONS }, (_, i) => {
    const before = [...at].reverse().find((m) => m <= i) ?? (at[at.length - 1] ?? 0) - DIRECTIONS, after = at.find((m) => m >= i) ?? (at[0] ?? 0) + DIRECTIONS;
    const low = marks.get(turn(before)) ?? 0, high = marks.get(turn(after)) ?? 0;
    const share = after === before ? 0 : (i - before) / (after - before);
    return Number((low + (high - low) * share).toFixed(1));
  });
}

/** One of the eight main directions is typed anew; the heights up to its neighbours (45 degrees) follow. */
export function bend(skyline: number[], eighth: number, height: number): number[] {
  const marks = new Map<number, number>();
  const main = (e: number): number => Math.round((((e + 8) % 8) * DIRECTIONS) / 8) % DIRECTIONS;
  for (let i = 0; i < DIRECTIONS; i++) marks.set(i, skyline[i] ?? 0);
  const here = main(eighth), from = main(eighth - 1), to = main(eighth + 1);
  for (let i = turn(from + 1); i !== to; i = turn(i + 1)) marks.delete(i);
  marks.set(here, height);
  return between(marks);
}

/** Where the long edge of a phone points: the y axis of the device turned by alpha about z, then by beta about x
 * (W3C Device Orientation, "Z-X'-Y''"); its turn about that edge does not matter. */
export function pointing(alpha_deg: number, beta_deg: number): { direction_deg: number; height_deg: number } {
  const rise = Math.abs(beta_deg) > 90 ? 180 - Math.abs(beta_deg) : Math.abs(beta_deg);
  const back = Math.abs(beta_deg) > 90 ? 180 : 0;
  return { direction_deg: (((360 - alpha_deg + back) % 360) + 360) % 360, height_deg: beta_deg < 0 ? -rise : rise };
}
