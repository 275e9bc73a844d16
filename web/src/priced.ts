// SPDX-License-Identifier: GPL-3.0-or-later
// A part of the shelf as the server tells it (docs/prices.md), and what one good piece of it costs.
import { money } from "./numbers";
import type { Brief, Part } from "./shapes";

export interface ShelfPrice { currency: string; decimals: number; price: number; consumables: number; date: string; shop: string }
export interface ShelfPart { name: string; tool: boolean; at_hand: number; sold_by: number; bench_min: number; loss_pct: number; spares_a_year: number | null; prices: ShelfPrice[]; mark: string }

export const wageName = "hour at the bench"; /* the line of a price list that tells the wage */
export const plainPart = (name: string): ShelfPart => ({ name, tool: false, at_hand: 0, sold_by: 1, bench_min: 0, loss_pct: 0, spares_a_year: null, prices: [], mark: "" });

/** The price with the latest day. */
export const latest = (part: ShelfPart): ShelfPrice | undefined => part.prices.reduce<ShelfPrice | undefined>((best, p) => (best && best.date >= p.date ? best : p), undefined);

/** (price + consumables + bench hours x wage) / (1 - loss), up to the smallest unit; "" where it is the price itself. */
export function trueCost(part: ShelfPart, parts: ShelfPart[]): string {
  const price = latest(part);
  if (!price || !(price.consumables || part.bench_min || part.loss_pct)) return "";
  const wage = parts.find((p) => p.name === wageName)?.prices.find((p) => p.currency === price.currency)?.price ?? 0;
  const units = 10 ** price.decimals, cost = (price.price + price.consumables + (part.bench_min / 60) * wage) / (1 - part.loss_pct / 100);
  return money(Math.ceil(cost * units - 1e-6) / units, price.decimals, price.currency);
}

/** Names of the parts that a brief can use. */
export function partsWanted(brief: Brief | null): string[] {
  const lists = ["panels", "cells", "chargers", "boards", "drivers", "parts", "masts"];
  const names = lists.flatMap((list) => ((brief?.shelf[list] as Part[] | undefined) ?? []).map((part) => part.name ?? "")).filter(Boolean);
  return [...new Set(names)];
}
