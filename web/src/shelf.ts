// SPDX-License-Identifier: GPL-3.0-or-later
// The panels of a brief's shelf, as sliders go through them.
import type { Brief } from "./shapes";

export interface Panels { name: string; count: number; watts: number; price: number }
const MOST_PANELS = 2; /* what a brief assumes that does not say it */

/** Every panel of the shelf, once and several times, by watts and then by price. */
export function panelsOf(brief: Brief): Panels[] {
  const most = Number(brief.shelf["most_panels_per_lamp"] ?? MOST_PANELS);
  return brief.shelf.panels.filter((p) => p.name && p.watts && p.count !== 0)
    .flatMap((p) => Array.from({ length: most }, (_, i) => ({ name: p.name ?? "", count: i + 1, watts: (p.watts ?? 0) * (i + 1), price: p.price * (i + 1) })))
    .sort((a, b) => a.watts - b.watts || a.price - b.price);
}
