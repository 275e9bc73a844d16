# SPDX-License-Identifier: GPL-3.0-or-later
"""Constants of core/sun/climate_spread.c: one standard deviation of log(estimate/measured) at stations left
out, as a function of the kriging variances, clearness and noon height; scaled so that 70 % of the errors lie
inside (the tails are long: with 68 % inside one, too few lie inside 1.645)."""
import numpy as np
from scipy.optimize import minimize

import fit_clearness as fc
import kriging
from tables import read, ridge


# Share of the kriging variance that is believed: chosen so that coverage is alike near and far.
KRIGING_SHARE = 0.6


def features(kt, mu):
    return np.clip(0.65 - kt, 0, 0.4), np.clip((0.75 - mu) / 0.4, 0, 1.2)


def spread(q, vy, vm, kt, mu):
    cloud, low = features(kt, mu)
    return np.sqrt((q[0] + q[1] * cloud + q[2] * low) ** 2 + KRIGING_SHARE * (vy + vm)[:, None])


def main():
    m = read()
    kt = fc.corrected_kt(m, fc.offset_of_old_set(m))
    beta = ridge(fc.columns(m), kt - 0.25 - 0.5 * m.sun, m.weight[:, None] / m.kt**2, 1e-3)
    prior = fc.estimate(m, beta)
    z = np.log(kt / prior)
    parts = []
    for radius in (1, 30, 100, 300, 1000):
        p, vy, vm = kriging.leave_out(m, z, radius)
        k = prior * np.exp(p)
        e = k / m.kt - 1
        g = k * m.h0 - m.ghi
        parts.append((radius, np.log(m.kt / k), vy, vm, k))
        for low, high in ((0, 25), (25, 60)):
            b = (m.abs_lat >= low) & (m.abs_lat < high)
            print(f"left out {radius:4d} km, {low}-{high} deg: bias {100 * e[b].mean():5.2f} % RMSE "
                  f"{100 * np.sqrt((e[b]**2).mean()):5.2f} %; of the mean: {100 * g[b].mean() / m.ghi[b].mean():5.2f} %"
                  f" {100 * np.sqrt((g[b]**2).mean()) / m.ghi[b].mean():5.2f} %")
    weight = np.sqrt(m.weight)[:, None] * np.ones(12)

    def loss(q):
        total = 0.0
        for radius, r, vy, vm, k in parts:
            s = spread(q, vy, vm, k, m.mu)
            total += (weight * (np.log(s) + 3.0 * np.log1p((r / s) ** 2 / 5.0))).sum()  # Student, 5 degrees
        return total

    q = minimize(loss, [0.04, 0.1, 0.02], method="Nelder-Mead", options=dict(maxiter=600)).x
    u = np.concatenate([(np.abs(r) / spread(q, vy, vm, k, m.mu)).ravel() for _, r, vy, vm, k in parts])
    order = np.argsort(u)
    share = np.cumsum(np.tile(weight.ravel(), len(parts))[order])
    factor = u[order][np.searchsorted(share, 0.70 * share[-1])]
    q = q * factor
    print("spread:", q.round(4))
    for radius, r, vy, vm, k in parts:
        s = spread(q, vy, vm, k, m.mu)
        for low, high in ((0, 25), (25, 35), (35, 45), (45, 60)):
            b = (m.abs_lat >= low) & (m.abs_lat < high)
            print(f"{radius:4d} km {low}-{high}: inside 1 sd {(np.abs(r[b]) < s[b]).mean():.3f}, 1.645 sd "
                  f"{(np.abs(r[b]) < 1.645 * s[b]).mean():.3f}, mean spread {100 * s[b].mean():.1f} %")


if __name__ == "__main__":
    main()
