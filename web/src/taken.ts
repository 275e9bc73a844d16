// SPDX-License-Identifier: GPL-3.0-or-later
// A brief from outside is looked at before the page takes it: the parts that every stage rests on are there and of the right kind.
// What they say is judged by whoever plans.
import type { Brief } from "./shapes";
import { say } from "./words";

type Group = Record<string, unknown>;
const isGroup = (value: unknown): value is Group => typeof value === "object" && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): boolean => typeof value === "number" && Number.isFinite(value);
const FORMAT = "lanewick.brief/1";

type Kind = "number" | "group" | "groups" | "lamps";
const areGroups = (value: unknown): boolean => Array.isArray(value) && value.every(isGroup);
const holds: Record<Kind, (value: unknown) => boolean> = { number: isNumber, group: isGroup, groups: areGroups, lamps: (value) => isNumber(value) || areGroups(value) };
const wanted = (path: string, kind: Kind): string => ({
  number: say("In the brief, “{0}” must be a number.", path), group: say("In the brief, “{0}” must be a group in braces.", path), groups: say("In the brief, “{0}” must be a list of groups in braces.", path),
  lamps: say("In the brief, “{0}” must be a number or a list of groups in braces.", path),
})[kind];
const needed: [path: string, kind: Kind][] = [
  ["place", "group"], ["place.lat_deg", "number"], ["place.lon_deg", "number"], ["want", "group"], ["shelf", "group"], ["shelf.panels", "groups"], ["shelf.cells", "groups"],
];
const possible: [path: string, kind: Kind][] = [
  ["build", "group"], ["build.mast", "group"], ["place.wind", "group"], ["want.lane", "group"], ["shelf.currency", "group"], ["want.schedule", "groups"], ["want.lamps", "lamps"],
  ...["chargers", "boards", "drivers", "parts", "masts"].map((list): [string, Kind] => [`shelf.${list}`, "groups"]),
];
const at = (brief: Group, path: string): unknown => path.split(".").reduce<unknown>((value, key) => (isGroup(value) ? value[key] : undefined), brief);

function lack(brief: Group): string {
  for (const [path, kind] of needed) {
    const value = at(brief, path);
    if (value === undefined) return say("The brief lacks “{0}”.", path);
    if (!holds[kind](value)) return wanted(path, kind);
  }
  for (const [path, kind] of possible) if (at(brief, path) !== undefined && !holds[kind](at(brief, path))) return wanted(path, kind);
  return "";
}

/** The brief of a text, or a sentence thrown that says what is wrong. */
export function briefOf(text: string): Brief {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Error(say("This is not JSON: {0}", (error as Error).message));
  }
  if (!isGroup(value)) throw new Error(say("This is no brief: a brief is a group in braces."));
  if (value["format"] === undefined) throw new Error(say("The brief lacks “{0}”.", "format"));
  if (value["format"] !== FORMAT) throw new Error(say("This is no brief: its format is “{0}”, that of a brief is “{1}”.", String(value["format"]), FORMAT));
  const wrong = lack(value);
  if (wrong) throw new Error(wrong);
  return value as unknown as Brief;
}

/** Whatever was kept as a brief, with the parts that the stages rest on: they bear what is missing, and Plan tells of it. */
export function borne(kept: unknown): Brief | null {
  if (!isGroup(kept)) return null;
  if (!lack(kept)) return kept as unknown as Brief;
  const brief = JSON.parse(JSON.stringify(kept)) as Group;
  for (const [path, kind] of [...needed, ...possible]) {
    const keys = path.split("."), key = keys.pop() ?? "", whole = keys.length ? at(brief, keys.join(".")) : brief, must = needed.some(([one]) => one === path);
    if (!isGroup(whole) || holds[kind](whole[key])) continue;
    const old = whole[key];
    if (Array.isArray(old) && (kind === "groups" || kind === "lamps")) whole[key] = old.filter(isGroup);
    else if (must && kind !== "number") whole[key] = kind === "group" ? {} : [];
    else delete whole[key];
  }
  return brief as unknown as Brief;
}
