#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Directions of the sun, sunsets and twilights against PyEphem (its sun: VSOP87, complete)."""
import datetime
import math
import sys

import figures

try:
    import ephem
except ImportError:
    print("skipped: the module ephem (Debian package python3-ephem) is not installed")
    sys.exit(77)

WRONG = []


def judge(good, what):
    if not good:
        WRONG.append(what)
        print("WRONG:", what)


def observer(lat, lon, elevation, when):
    here = ephem.Observer()
    here.lat, here.lon, here.elevation = math.radians(lat), math.radians(lon), elevation
    here.pressure, here.date = 0, when
    return here


def positions(program, count):
    drawn = list(figures.places(count, 1))
    found = figures.answers(program, "sun_position", [
        {"lat_deg": lat, "lon_deg": lon, "elev_m": elevation, "utc": when.isoformat() + "Z"}
        for lat, lon, elevation, when in drawn])
    worst = 0.0
    for place, mine in zip(drawn, found):
        sun = ephem.Sun(observer(*place))
        theirs = figures.direction(90.0 - math.degrees(sun.alt), math.degrees(sun.az))
        miss = figures.apart_deg(figures.direction(mine["zenith_deg"], mine["azimuth_deg"]), theirs)
        worst = max(worst, miss)
        judge(miss < 0.001, f"sun at {place}: {miss:.5f} degree apart")
    print(f"{count} directions: worst {worst:.5f} degree")


def crossing(here, horizon, rising):
    """The next crossing: of the upper rim with refraction for the horizon, of the centre for twilight."""
    here.horizon = horizon
    method = here.next_rising if rising else here.next_setting
    return method(ephem.Sun(), use_center=horizon == "-6").datetime()


def nights(program, count):
    drawn = [(lat, lon, when.date()) for lat, lon, _, when in figures.places(count, 2)]
    found = figures.answers(program, "night", [
        {"lat_deg": lat, "lon_deg": lon, "date": date.isoformat()} for lat, lon, date in drawn])
    worst, compared, missing = {}, 0, 0
    for (lat, lon, date), mine in zip(drawn, found):
        noon = datetime.datetime.combine(date, datetime.time(12)) - datetime.timedelta(hours=lon / 15.0)
        for key, horizon, rising in (("sunset_utc", "-0:34", False), ("sunrise_utc", "-0:34", True),
                                     ("civil_dusk_utc", "-6", False), ("civil_dawn_utc", "-6", True)):
            if mine[key] is None:
                missing += 1
                judge(abs(lat) > 55.0, f"no {key} at {lat} {date}")
                continue
            here = observer(lat, lon, 0.0, noon + datetime.timedelta(hours=12.0 if rising else 0.0))
            try:
                theirs = crossing(here, horizon, rising)
            except (ephem.AlwaysUpError, ephem.NeverUpError):
                judge(abs(lat) > 55.0, f"{key} at {lat} {date}: none in the library")
                continue
            ours = datetime.datetime.fromisoformat(mine[key].rstrip("Z"))
            apart = abs((ours - theirs).total_seconds())
            if abs(lat) > 80.0 and apart > 3600.0:
                continue  # grazing: the library's next crossing belongs to another day
            band = "below 50" if abs(lat) < 50 else "50 to 60" if abs(lat) < 60 else "60 and more"
            limit = {"below 50": 5.0, "50 to 60": 20.0, "60 and more": 300.0}[band]
            worst[band] = max(worst.get(band, 0.0), apart)
            compared += 1
            judge(apart < limit, f"{key} at {lat} {lon} {date}: {apart:.1f} s apart")
    print(f"{compared} crossings, {missing} missing at high latitude; worst in seconds by latitude: "
          + ", ".join(f"{band}: {seconds:.1f}" for band, seconds in sorted(worst.items())))
    judge(compared > 3 * count, "too few crossings were compared")


def main():
    positions(sys.argv[1], 3000)
    nights(sys.argv[1], 600)
    return 1 if WRONG else 0


sys.exit(main())
