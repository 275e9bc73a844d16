# SPDX-License-Identifier: GPL-3.0-or-later
"""Constants of core/sun/climate_clearness.c: sunshine share -> monthly clearness, and the offset of the old
TMY set. Prints leave-out checks of the regression alone (every station within R km left out)."""
import numpy as np

from tables import read, ridge

NAMES = ["range", "ramp", "ramp*sun", "ramp*rain", "height", "ramp*range", "ramp*mu", "ramp*sun*mu",
         "ramp*south"]


def offset_of_old_set(m):
    """log(TMY / TMY2) at the same places against mu: the old set is low where the sun is low."""
    x, y = [], []
    for i in np.where(m.set == "TMY")[0]:
        for j in np.where((m.d[i] < 25) & (m.set == "TMY2"))[0]:
            x.append(np.stack([np.ones(12), np.clip((0.75 - m.mu[i]) / 0.4, 0, 1)], -1))
            y.append(np.log(m.kt[i] / m.kt[j]))
    return np.linalg.lstsq(np.concatenate(x), np.concatenate(y), rcond=None)[0]


def height(m, ramp):
    """Thinner air: from the sea up outside the tropics, where there are data; in them only above 1,500 m."""
    z = m.elev[:, None] / 1000
    return ramp * np.clip(z, 0, 3) + (1 - ramp) * np.clip(z - 1.5, 0, 3)


def columns(m):
    one = np.ones((len(m.lat), 12))
    lat = m.abs_lat[:, None]
    ramp = np.clip((lat - 22) / 15, 0, 1) * (1 - 0.5 * np.clip((lat - 50) / 10, 0, 1)) * one
    mu = np.clip(m.mu, 0.25, 1)
    return [m.range / 10 - 1, ramp, ramp * m.sun, ramp * np.log1p(m.rain / 30),
            height(m, ramp), ramp * m.range / 10, ramp * mu, ramp * m.sun * mu,
            ramp * (m.lat[:, None] < 0)]


def corrected_kt(m, c):
    low_sun = np.clip((0.75 - m.mu) / 0.4, 0, 1)
    return m.kt * np.exp(-np.where((m.set == "TMY")[:, None], c[0] + c[1] * low_sun, 0.0))


def estimate(m, beta):
    return 0.25 + 0.5 * m.sun + sum(b * x for b, x in zip(beta, columns(m)))


def main():
    m = read()
    c = offset_of_old_set(m)
    kt = corrected_kt(m, c)
    weight = m.weight[:, None] / m.kt**2
    target = kt - 0.25 - 0.5 * m.sun
    cols = columns(m)
    beta = ridge(cols, target, weight, 1e-3)
    print("offset of TMY:", c.round(4))
    for name, b in zip(NAMES, beta):
        print(f"{name:14s} {b:8.4f}")
    for radius in (30, 300, 1500):
        e = np.empty_like(kt)
        for i in range(len(kt)):
            keep = m.d[i] >= radius
            b = ridge([x[keep] for x in cols], target[keep], weight[keep], 1e-3)
            e[i] = (0.25 + 0.5 * m.sun[i] + sum(k * x[i] for k, x in zip(b, cols))) / m.kt[i] - 1
        for low, high in ((0, 25), (25, 60)):
            k = (m.abs_lat >= low) & (m.abs_lat < high)
            print(f"left out {radius:4d} km, {low}-{high} deg: bias {100 * e[k].mean():5.2f} %"
                  f"  RMSE {100 * np.sqrt((e[k] ** 2).mean()):5.2f} %")


if __name__ == "__main__":
    main()
