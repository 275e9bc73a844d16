// SPDX-License-Identifier: GPL-3.0-or-later
// Lux as even steps from ground to amber, and the steps of a mast that is moved.
import { show } from "./numbers";

/** Lux of the steps' upper ends: each about double the one before, as the eye counts. */
export const STEPS = [0.2, 0.5, 1, 2, 5, 10, 20];
export const step = (lux: number): number => STEPS.filter((s) => lux >= s).length;
export const luxText = (lux: number): string => show(lux, lux < 10 ? 1 : 2);
export const textOn = (lux: number): string => `tick on${step(lux) > 4 ? "bright" : "dim"}`;

/** How far beside the lane a mast may be dragged, and the smallest steps of a drag. */
export const BESIDE_MOST_M = 1.2, ALONG_STEP_M = 0.5, ACROSS_STEP_M = 0.1;
export const rounded = (value: number, by: number): number => Number((Math.round(value / by) * by).toFixed(2));
/** Steps right and up of an arrow key. */
export const arrow = (key: string): [right: number, up: number] | undefined => ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] } as Record<string, [number, number]>)[key];
