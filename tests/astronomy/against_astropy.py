#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Directions of the sun against astropy (IAU 2006/2000A by ERFA, its built-in ephemeris), with UT1 = UTC and with the
true UT1 of its tables."""
import sys
import warnings

import figures

try:
    import numpy as np
    from astropy import units as u
    from astropy.coordinates import AltAz, EarthLocation, get_sun
    from astropy.time import Time
    from astropy.utils import iers
except ImportError:
    print("skipped: the module astropy (Debian package python3-astropy) is not installed")
    sys.exit(77)


def library_directions(drawn, true_ut1):
    time = Time([when for *_, when in drawn], scale="utc")
    if not true_ut1:
        time.delta_ut1_utc = 0.0
    lat, lon, elevation = (np.array([place[i] for place in drawn]) for i in range(3))
    where = EarthLocation.from_geodetic(lon * u.deg, lat * u.deg, elevation * u.m)
    sun = get_sun(time).transform_to(AltAz(obstime=time, location=where))
    up, around = sun.alt.rad, sun.az.rad
    return np.stack([np.sin(up), np.cos(up) * np.sin(around), np.cos(up) * np.cos(around)], axis=1)


def main():
    warnings.simplefilter("ignore")
    iers.conf.auto_download = False
    iers.conf.iers_degraded_accuracy = "ignore"
    drawn = list(figures.places(1500, 3))
    found = figures.answers(sys.argv[1], "sun_position", [
        {"lat_deg": lat, "lon_deg": lon, "elev_m": elevation, "utc": when.isoformat() + "Z"}
        for lat, lon, elevation, when in drawn])
    mine = np.array([figures.direction(one["zenith_deg"], one["azimuth_deg"]) for one in found])
    status = 0
    for true_ut1, limit in ((False, 0.003), (True, 0.01)):
        miss = np.degrees(np.linalg.norm(mine - library_directions(drawn, true_ut1), axis=1))
        print(f"{len(drawn)} directions, {'true UT1' if true_ut1 else 'UT1 = UTC'}: worst {miss.max():.5f} degree, "
              f"root mean square {np.sqrt((miss ** 2).mean()):.5f}")
        status |= miss.max() >= limit
    return int(status)


sys.exit(main())
