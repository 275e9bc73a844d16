#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The bill of a plan worked out again with Python's fractions: true cost, pieces, spares, sums; and the cheapest sharing
when a price moves, by trying every sharing of the plan's alternatives.   usage: exact.py PROGRAM"""
import itertools
import json
import math
import pathlib
import subprocess
import sys
import tempfile
from decimal import Decimal
from fractions import Fraction

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "scripts"))
from tally import ROOT, check, end



def brief_with_prices(decimals):
    """The demo's brief with the price list; with decimals every amount is divided and gets odd cents."""
    brief = json.loads((ROOT / "demo/nsungwi.json").read_text(encoding="utf-8"))
    brief["shelf"] |= json.loads((ROOT / "tests/bill/priced.json").read_text(encoding="utf-8"))
    brief["place"]["wind"]["speed_m_s"] = 14.0  # a pole for every panel
    brief["shelf"]["currency"] = {"text": "K", "decimals": decimals}
    if decimals:
        shelf = brief["shelf"]
        for one in [thing for key in ("panels", "cells", "chargers", "boards", "drivers", "parts", "masts", "prices") for thing in shelf[key]] + [shelf]:
            for key in ("price", "consumables", "wage_per_hour", "cement_price", "fixings_price"):
                if key in one:
                    one[key] = float(Decimal(str(one[key])) / 100 + Decimal("0.07"))
    return brief


def plan_of(program, brief):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(brief, file)
        file.flush()
        run = subprocess.run([program, "plan", file.name, "--json"], capture_output=True, text=True)
    check(run.returncode == 0, run.stderr)
    return json.loads(run.stdout)


class Shelf:
    """What one good piece of each part costs, exactly, rounded up to the smallest unit."""

    def __init__(self, shelf, mover=None, percent=0):
        self.unit = Fraction(1, 10 ** shelf["currency"]["decimals"])
        self.listed = {entry["name"].lower(): entry for entry in shelf["prices"]}
        self.own = {thing["name"]: self.money(thing["price"]) for key in ("panels", "cells", "chargers", "boards", "drivers", "parts", "masts") for thing in shelf[key]}
        self.own |= {"cement, bag of 50 kg": self.money(shelf["cement_price"]), "bolts, clamps and lock nuts for a mast, set": self.money(shelf["fixings_price"]),
                     "sand, bucket of 20 litres": Fraction(0), "stones of 10 to 20 mm, bucket of 20 litres": Fraction(0)}
        self.wage = self.money(shelf["wage_per_hour"])
        if mover == "hour at the bench":
            self.wage = self.up(self.wage * (100 + percent) / 100)
        self.mover, self.percent = mover, percent

    @staticmethod
    def money(number):
        return Fraction(Decimal(str(number)))

    def up(self, amount):
        return math.ceil(amount / self.unit) * self.unit

    def entry(self, name):
        return self.listed.get(name.lower(), {})

    def price(self, name):
        entry = self.entry(name)
        amount = self.money(entry["price"]) if "price" in entry else self.own[name]
        return self.up(amount * (100 + self.percent) / 100) if name == self.mover else amount

    def good(self, name):
        entry = self.entry(name)
        loss = self.money(entry.get("loss_pct", 0)) / 100
        work = self.wage * entry.get("bench_min", 0) / 60
        return self.up((self.price(name) + self.money(entry.get("consumables", 0)) + work) / (1 - loss))

    def lamp(self, size, parts):
        cost = size["panels"] * self.good(size["panel"]) + size["series"] * size["parallel"] * self.good(size["cell"])
        return cost + sum(self.good(size[key]) for key in ("charger", "driver", "board") if size.get(key) in self.own) + sum(
            part.get("per_lamp", 1) * self.good(part["name"]) for part in parts)


def bill(brief, plan):
    shelf, cost = Shelf(brief["shelf"]), plan["cost"]
    lamps, years = len(plan["lamps"]), brief["want"]["planned_years"]
    exact = lambda number: Fraction(Decimal(str(number)))
    total = spares_sum = pay_sum = minutes = 0
    for line in cost["bill"]:
        name, entry = line["name"], shelf.entry(line["name"])
        good = shelf.good(name) if not line["tool"] else exact(entry["price"])
        spares = math.ceil(lamps * years * exact(entry.get("spares_a_year", 0))) if not line["tool"] else 0
        pieces = math.ceil((line["lamps"] + spares) / (1 - exact(entry.get("loss_pct", 0)) / 100))
        covered = min(pieces, entry.get("at_hand", 0))
        by = entry.get("sold_by", 1)
        buy = -(-(pieces - covered) // by) * by
        price = exact(entry["price"]) if "price" in entry else shelf.own[name]
        for key, value in (("good_piece", good), ("spares", spares), ("pieces", pieces), ("at_hand", covered), ("buy", buy), ("price", price),
                           ("pay", buy * price), ("shop", entry.get("shop", "")), ("date", entry.get("date", ""))):
            said = line[key] if isinstance(value, str) else exact(line[key])
            check(said == value, f"{name}: {key} is {line[key]}, exactly {value}")
        if not line["tool"]:
            total, spares_sum, minutes = total + line["lamps"] * good, spares_sum + spares * good, minutes + pieces * entry.get("bench_min", 0)
        pay_sum += buy * price
    tools = sum(exact(entry["price"]) for entry in brief["shelf"]["prices"] if entry.get("tool") and not entry.get("at_hand"))
    for key, value in (("total", total), ("spares", spares_sum), ("to_pay", pay_sum), ("tools", tools)):
        check(exact(cost[key]) == value, f"{key} is {cost[key]}, exactly {value}")
    check(abs(cost["bench_hours"] - minutes / 60) < 1e-9 * minutes, f"bench hours {cost['bench_hours']}, {minutes} minutes")
    check({"cement, bag of 50 kg", brief["shelf"]["masts"][0]["name"]} < {line["name"] for line in cost["bill"]}, "masts are on the bill")
    lit = sum((year["year"] - (lamp["years"][i - 1]["year"] if i else 0)) * (365.25 - year["dark_per_year"]["mean"])
              for lamp in plan["lamps"] for i, year in enumerate(lamp["years"]))
    check(abs(cost["lit_night"] / (float(total + spares_sum) / lit) - 1) < 1e-9, f"a lit night costs {cost['lit_night']}")


def cheapest(brief, plan, shelf):
    """Least cost of all lamps among the alternatives that keep the wish untrimmed, with the counts of the shelf."""
    kinds = {}
    for lamp in plan["lamps"]:
        kinds[lamp["kind"]] = kinds.get(lamp["kind"], 0) + 1
    choices = []
    for kind, count in kinds.items():
        sizes = [option["size"] for option in plan["options"] if option["kind"] == kind and option["keeps_wish"] and not option["size"]["trimmed"]]
        sums = []
        for pick in itertools.combinations_with_replacement(sizes, count):
            used = {}
            for size in pick:
                for key, n in (("panel", size["panels"]), ("cell", size["series"] * size["parallel"]), ("charger", 1), ("driver", 1), ("board", 1)):
                    used[size.get(key)] = used.get(size.get(key), 0) + n
            sums.append((sum(shelf.lamp(size, brief["shelf"]["parts"]) for size in pick), used))
        choices.append(sums)
    there = {thing["name"]: thing.get("count", 10 ** 6) for key in ("panels", "cells", "chargers", "boards", "drivers") for thing in brief["shelf"][key]}
    best = None
    for picks in itertools.product(*choices):
        cost = sum(pick[0] for pick in picks)
        if best is not None and cost >= best:
            continue
        if all(sum(pick[1].get(name, 0) for pick in picks) <= there.get(name, 10 ** 6) for name in {name for pick in picks for name in pick[1]}):
            best = cost
    return best


def moves(brief, plan):
    exact = lambda number: Fraction(Decimal(str(number)))
    said = plan["cost"]["if_price_moves"]
    check({move["percent"] for move in said} == {10, 50} and any(move["other"] for move in said), "moves of 10 and 50 percent, one with another design")
    for i, move in enumerate(said):
        shelf = Shelf(brief["shelf"], move["name"], move["percent"])
        stays = sum(line["lamps"] * shelf.good(line["name"]) for line in plan["cost"]["bill"] if not line["tool"])
        masts = stays - sum(shelf.lamp(lamp["size"], brief["shelf"]["parts"]) for lamp in plan["lamps"])
        check(exact(move["all_lamps"]) == stays, f"{move['name']} +{move['percent']} %: {move['all_lamps']}, exactly {stays}")
        check((move["cheapest"] < move["all_lamps"]) == bool(move["other"]), f"{move}")
        if move["other"] or i < 2:
            best = cheapest(brief, plan, shelf) + masts  # the masts stay
            check(exact(move["cheapest"]) == best, f"{move['name']} +{move['percent']} %: cheapest {move['cheapest']}, exactly {best}")


def main():
    for decimals in (0, 2):
        brief = brief_with_prices(decimals)
        plan = plan_of(sys.argv[1], brief)
        bill(brief, plan)
        moves(brief, plan)
    end()


main()
