"""Makes scipy-beats.csv and scipy-beats.txt with SciPy and NumPy alone, so that they stand outside this project.

Run with Debian's python3-scipy (made with numpy 1.24, scipy 1.10): python3 make_fixture.py
The pressure is a drawn shape (ramp, spike, plateau, suction, ring), not a ram model; the instants of the beats are
drawn from a normal distribution. scipy.signal.find_peaks finds the spikes, numpy.percentile (linear) the quantiles.
"""
import numpy as np
from scipy.signal import find_peaks

rng = np.random.default_rng(20261125)
rate = 500.0
closures = 0.7 + np.cumsum(rng.normal(0.9, 0.03, 33))
t = np.arange(0, closures[-1] + 0.5, 1 / rate)
p = np.zeros_like(t)
for start, end in zip(closures[:-1], closures[1:]):
    since = t - start
    plateau = (since >= 0) & (since < 0.12)
    p[plateau] = 190 + 120 * np.exp(-since[plateau] / 0.003)
    ring = (since >= 0.12) & (since < 0.25)
    p[ring] = -30 * np.exp(-(since[ring] - 0.12) / 0.02) * np.cos(2 * np.pi * (since[ring] - 0.12) / 0.03)
    opened = (since >= 0.25) & (t < end)
    p[opened] = 5 * ((since[opened] - 0.25) / (end - start - 0.25)) ** 2
since = t - closures[-1]
last = since >= 0
p[last] = np.where(since[last] < 0.12, 190 + 120 * np.exp(-since[last] / 0.003), 0)
p += rng.normal(0, 0.6, t.size)
np.savetxt("scipy-beats.csv", np.c_[t, p], delimiter=",", fmt="%.4f", header="t_s,p_kPa", comments="")
peaks, _ = find_peaks(p, height=95, distance=int(0.3 * rate))
intervals = np.diff(closures)
tops = p[peaks][: len(intervals)]
with open("scipy-beats.txt", "w") as out:
    out.write("peaks %d\n" % len(peaks))
    out.write("closures %s\n" % " ".join("%.6f" % c for c in closures))
    out.write("peak_kpa %s\n" % " ".join("%.4f" % v for v in np.percentile(tops, [50, 95, 100])))
    out.write("interval_s %s\n" % " ".join("%.6f" % v for v in np.percentile(intervals, [50, 5, 95])))
    out.write("irregularity %.6f\n" % (np.std(intervals, ddof=1) / np.mean(intervals)))
    out.write("mean_kpa %.5f\n" % (np.trapz(p, t) / (t[-1] - t[0])))
