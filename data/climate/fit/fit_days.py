# SPDX-License-Identifier: GPL-3.0-or-later
"""Constants of core/sun/climate_days.c: how wild the days of a month are (c = sd of daily clearness /
(1 - monthly clearness)), its scatter, the lag-1 correlation, and the scatter of single years."""
import numpy as np

import kriging
from tables import read, ridge

NAMES = ["one", "lat", "lat^2", "kt", "kt^2", "rain", "range", "mu", "vapour", "lat*kt"]
PART = dict(sill=0.15**2, far=0.3, near_km=300.0, far_km=1500.0)


def columns(m):
    one = np.ones((len(m.lat), 12))
    lat = np.minimum(m.abs_lat, 50)[:, None] / 30 * one
    return [one, lat, lat**2, m.kt, m.kt**2, np.log1p(m.rain / 30), m.range / 10, np.clip(m.mu, 0.25, 1), m.vapour,
            lat * m.kt]


def main():
    m = read()
    c = m.day_sd / (1 - m.kt)
    y = np.log(c)
    # The Italian and the Egyptian sets have days too tame to be real (mean c 0.15 and 0.17 beside 0.3 around).
    odd = np.isin(m.set, ["IGDG", "ETMY"])
    weight = np.where(odd, 0.0, m.weight * np.where(m.abs_lat < 25, 2, 1))[:, None] * np.ones(12)
    cols = columns(m)
    beta = ridge(cols, y, weight, 1e-4)
    for name, b in zip(NAMES, beta):
        print(f"{name:8s} {b:8.4f}")
    z = y - sum(b * x for b, x in zip(beta, cols))
    noise = np.where(odd, 0.6, 0.13)
    zm = np.where(odd, 0, z.mean(1))
    bands = ((0, 15), (15, 25), (25, 35), (35, 45), (45, 60))
    for radius in (1, 30, 100, 300, 1000):
        r, v = np.empty_like(y), np.empty(len(y))
        for i in range(len(y)):
            keep = m.d[i] >= radius
            if radius >= 100:  # regression left out as well
                b = ridge([x[keep] for x in cols], y[keep], weight[keep], 1e-4)
                zi = y - sum(k * x for k, x in zip(b, cols))
                zmi = np.where(odd, 0, zi.mean(1))
            else:
                zi, zmi = z, zm
            n = kriging.neighbours(m, i, radius)
            w, v[i] = kriging.weights(PART, m, i, n, noise)
            r[i] = zi[i] - w @ zmi[n]
        for low, high in bands:
            k = (m.abs_lat >= low) & (m.abs_lat < high) & ~odd
            s = np.sqrt(0.215**2 + 1.0 * v[k])[:, None]
            print(f"{radius:4d} km {low}-{high}: mean {r[k].mean():6.3f} sd {r[k].std():.3f} v {v[k].mean():.4f}"
                  f" plain regression sd {z[k].std():.3f}  inside 1 sd {(abs(r[k]) < s).mean():.3f}"
                  f" 1.645 {(abs(r[k]) < 1.645 * s).mean():.3f}")
    # The C code takes the scatter of the model as 0.23 up to 25 degrees, falling to 0.12 at 38: what is left of
    # these errors without v and without 0.13, the scatter of a standard deviation found in 30 days.
    # lag-1: the estimate from 30 days is low by about (1 + 4 rho)/30 (Kendall 1954)
    lag = (m.day_lag1 + 1 / 30) / (1 - 4 / 30)
    for low, high in ((0, 15), (15, 20), (20, 30), (30, 37), (37, 45), (45, 60)):
        k = (m.abs_lat >= low) & (m.abs_lat < high) & ~odd
        slope = np.polyfit(m.kt[k].ravel(), lag[k].ravel(), 1)[0]
        print(f"lag-1 {low}-{high}: mean {lag[k].mean():.3f} at mean kt {m.kt[k].mean():.2f}, slope with kt {slope:.2f},"
              f" site means scatter {lag[k].mean(1).std():.3f}")
    # single years: pairs of sets at the same place, different typical years
    s = m.day_sd / m.kt * np.sqrt((1 + 0.32) / (1 - 0.32) / 30.4)  # scatter of a mean of 30 such days
    d, e, lat = [], [], []
    for i in range(len(y)):
        for j in np.where((m.d[i] < 15) & (m.set[i] == "TMY2") & (m.set == "TMY3"))[0]:
            x = np.log(m.kt[i] / m.kt[j])
            d.append((x - x.mean()) * np.sqrt(12 / 11))
            e.append(np.sqrt((s[i] ** 2 + s[j] ** 2) / 2))
            lat.append(m.abs_lat[i])
    d, e, lat = np.array(d) / np.sqrt(2), np.array(e), np.array(lat)
    for low, high in ((0, 25), (25, 35), (35, 42), (42, 60)):
        k = (lat >= low) & (lat < high)
        print(f"pairs {low}-{high}: {k.sum()} sd of one {d[k].std():.4f}, robust {1.4826 * np.median(abs(d[k])):.4f}"
              f", from the days {np.sqrt((e[k] ** 2).mean()):.4f}, by month {d[k].std(0).round(3)},"
              f" days {np.sqrt((e[k]**2).mean(0)).round(3)}")
    print("ratio", np.sqrt((d**2).mean() / (e**2).mean()))


if __name__ == "__main__":
    main()
