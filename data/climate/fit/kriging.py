# SPDX-License-Identifier: GPL-3.0-or-later
"""Residuals of the regression carried from measured stations to a place: two sums of two exponentials with
distance, one for the mean over the year, one for the deviations of the months; a nugget for each data set."""
import numpy as np

SETS = ["TMY", "TMY2", "TMY3", "IMGW", "IGDG"]
NUGGET_YEAR = [0.06, 0.025, 0.04, 0.04, 0.03]
NUGGET_MONTH = [0.07, 0.05, 0.09, 0.09, 0.05]
YEAR = dict(sill=0.067**2, far=0.4, near_km=500.0, far_km=2000.0)
MONTH = dict(sill=0.060**2, far=0.3, near_km=333.0, far_km=2000.0)
HEIGHT_M = 1700.0
NEIGHBOURS = 24


def nugget(m, values, other):
    return np.select([m.set == s for s in SETS], values, other)


def covariance(part, d, dz):
    return part["sill"] * (part["far"] * np.exp(-d / part["far_km"]) +
                           (1 - part["far"]) * np.exp(-d / part["near_km"]) * np.exp(-(dz / HEIGHT_M) ** 2))


def alone(part, d):
    """The Italian set of 1951-70 (IGDG) is 15 % below its surroundings: a field of its own, for Italy only."""
    return 3.0 * part["sill"] * np.exp(-d / 120.0)


def neighbours(m, i, radius):
    o = m.order[i]
    return o[(m.d[i, o] >= radius) & (m.wmo[o] != m.wmo[i])][:NEIGHBOURS]


def weights(part, m, i, c, noise):
    """Weights of the neighbours c for station i, and the variance that remains of the common field."""
    italy = m.set[c] == "IGDG"
    d = m.d[np.ix_(c, c)]
    a = np.where(italy[:, None] & italy[None], alone(part, d), covariance(part, d, m.elev[c][:, None] - m.elev[c][None]))
    a[italy[:, None] != italy[None]] = 0.0
    k = np.where(italy, alone(part, m.d[i, c]), covariance(part, m.d[i, c], m.elev[c] - m.elev[i]))
    w = np.linalg.solve(a + np.diag(noise[c] ** 2), k)
    return w, part["sill"] - w[~italy] @ k[~italy]


def leave_out(m, z, radius):
    """Predicted residual [station, month], variance of its year part and of its month part."""
    year, month = nugget(m, NUGGET_YEAR, 0.04), nugget(m, NUGGET_MONTH, 0.06)
    mean = z.mean(1)
    p, vy, vm = np.empty_like(z), np.empty(len(z)), np.empty(len(z))
    for i in range(len(z)):
        c = neighbours(m, i, radius)
        w, vy[i] = weights(YEAR, m, i, c, year)
        p[i] = w @ mean[c]
        w, vm[i] = weights(MONTH, m, i, c, month)
        p[i] += w @ (z[c] - mean[c][:, None])
    return p, vy, vm
