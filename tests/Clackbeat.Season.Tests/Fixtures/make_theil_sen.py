"""Makes theil-sen.csv with SciPy: slope, intercept and 95 % interval (Sen 1968) of series with and without ties.

Nile: annual flow at Aswan [1e8 m3], 1871-1970, G. W. Cobb, Biometrika 65 (1978) 243, table 1 (in nile.csv).
"""
import csv
import numpy as np
from scipy.stats import theilslopes

nile = np.array([[float(c) for c in row] for row in list(csv.reader(open("nile.csv")))[1:]])
rng = np.random.default_rng(8)
drift = np.round(0.3 * np.arange(60) + rng.normal(0, 4, 60), 3)
ties = np.round(0.1 * np.arange(40) + rng.normal(0, 1.5, 40))
with open("theil-sen.csv", "w", newline="") as out:
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["name", "slope", "intercept", "low", "high", "values"])
    for name, x, y in [("nile", nile[:, 0], nile[:, 1]), ("drift", np.arange(60.0), drift), ("ties", np.arange(40.0), ties)]:
        s, i, lo, hi = theilslopes(y, x, 0.95)
        w.writerow([name, repr(float(s)), repr(float(np.median(y - s * x))), repr(float(lo)), repr(float(hi)), " ".join(repr(float(v)) for v in y)])
