# SPDX-License-Identifier: GPL-3.0-or-later
"""The two climate tables as arrays, and the quantities that the models are made of.

Needs python3-numpy. The same steps are written in C in core/sun/climate_*.c; tests/data/crossval_climate.c
measures the C code, this directory only finds the constants.
"""
import csv
import os

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
DECLINATION = np.radians([-20.8, -12.7, -1.9, 9.8, 18.9, 23.0, 21.2, 13.7, 2.9, -8.7, -18.4, -23.0])
DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


class Table:
    pass


def monthly(rows, name):
    return np.array([[float(r[f"{name}_{i:02d}"]) for i in range(1, 13)] for r in rows])


def single(rows, name):
    return np.array([float(r[name]) if r[name] else np.nan for r in rows])


def unit_vectors(lat, lon):
    a, b = np.radians(lat), np.radians(lon)
    return np.stack([np.cos(a) * np.cos(b), np.cos(a) * np.sin(b), np.sin(a)], -1)


def distances_km(a, b):
    chord = np.linalg.norm(a[:, None] - b[None], axis=-1)
    return 6371.0 * 2.0 * np.arcsin(np.clip(chord / 2.0, 0.0, 1.0))


def h0_kwh_m2(lat):
    """Monthly extraterrestrial radiation: Duffie & Beckman eq. 1.10.3, Cooper, 1367 W/m2, all days."""
    day = np.arange(1, 366)
    dec = np.radians(23.45 * np.sin(2 * np.pi * (284 + day) / 365))
    ecc = 1 + 0.033 * np.cos(2 * np.pi * day / 365)
    phi = np.radians(lat)[:, None]
    w = np.arccos(np.clip(-np.tan(phi) * np.tan(dec), -1, 1))
    h = 24 * 1.367 / np.pi * ecc * (np.cos(phi) * np.cos(dec) * np.sin(w) + w * np.sin(phi) * np.sin(dec))
    ends = np.cumsum([0] + DAYS)
    return np.stack([h[:, ends[i]:ends[i + 1]].mean(1) for i in range(12)], 1)


def read():
    with open(os.path.join(HERE, "..", "measured-ghi.csv"), newline="", encoding="utf-8") as f:
        rows = list(csv.DictReader(f))
    m = Table()
    m.lat, m.lon, m.elev = single(rows, "lat_deg"), single(rows, "lon_deg"), single(rows, "elev_m")
    m.wmo = np.array([r["wmo_id"] for r in rows])
    m.set = np.array([r["source"] for r in rows])
    m.ghi = monthly(rows, "ghi_kwh_m2_day")
    m.day_sd, m.day_lag1 = monthly(rows, "kt_day_sd"), monthly(rows, "kt_day_lag1")
    m.h0 = h0_kwh_m2(m.lat)
    m.kt = m.ghi / m.h0
    with open(os.path.join(HERE, "..", "normals.csv"), newline="", encoding="utf-8") as f:
        rows = list(csv.DictReader(f))
    n = Table()
    n.lat, n.lon, n.elev = single(rows, "lat_deg"), single(rows, "lon_deg"), single(rows, "elev_m")
    n.sun, n.t, n.range = monthly(rows, "sun_pct") / 100, monthly(rows, "t_mean_c"), monthly(rows, "t_range_c")
    n.rain = monthly(rows, "rain_mm")
    m.x, n.x = unit_vectors(m.lat, m.lon), unit_vectors(n.lat, n.lon)
    m.d = distances_km(m.x, m.x)
    m.order = np.argsort(m.d, 1)
    # Normals at the measured stations: 12 nearest, weight by distance and by height.
    d = distances_km(m.x, n.x)
    near = np.argsort(d, 1)[:, :12]
    d = np.take_along_axis(d, near, 1)
    dz = n.elev[near] - m.elev[:, None]
    dz[np.isnan(dz)] = 0.0
    w = 1 / (d**2 + 10.0**2) / (1 + (dz / 300.0) ** 2)
    w /= w.sum(1, keepdims=True)
    at = lambda v: np.einsum("ij,ijk->ik", w, v[near])
    m.sun, m.rain, m.range = at(n.sun), at(n.rain), at(n.range)
    m.t = np.einsum("ij,ijk->ik", w, n.t[near] + 0.0055 * dz[:, :, None])
    m.normal_km = d[:, 0]
    m.mu = np.cos(np.radians(m.lat)[:, None] - DECLINATION)  # sine of the noon height of the sun
    m.vapour = np.exp(0.065 * np.clip(m.t - m.range / 2, -25, 28)) / 5  # stands for the vapour pressure
    m.abs_lat = np.abs(m.lat)
    # The two sets without weight are far darker than their surroundings; TMY2 stands on 30 years.
    m.weight = np.select([m.set == "TMY", m.set == "TMY2", m.set == "TMY3", m.set == "IMGW", m.set == "IGDG",
                          m.set == "CSWD"], [0.35, 3.0, 0.7, 0.6, 0.0, 0.0], 1.0)
    m.weight /= (m.d < 150).sum(1) ** 0.7
    m.weight *= np.where(m.abs_lat < 30, 2.5, 1.0)
    return m


def ridge(columns, target, weight, strength):
    """Weighted ridge regression; columns are scaled to equal size before the penalty."""
    x = np.stack(columns, -1).reshape(-1, len(columns))
    w = (weight * np.ones_like(target)).ravel()
    scale = np.sqrt((x**2).mean(0))
    x = x / scale
    a = (x * w[:, None]).T @ x + strength * w.sum() * np.eye(x.shape[1])
    return np.linalg.solve(a, (x * w[:, None]).T @ target.ravel()) / scale
