"""Reference numbers for the yield: Sobol points, normal distribution, intervals. Run: python3 make_yield.py > ../yield.json
scipy 1.17: stats.qmc.Sobol without scrambling, stats.norm, stats.truncnorm, stats.binomtest."""
import json
from scipy import stats
from scipy.stats import qmc

DIMENSIONS = 96
points = qmc.Sobol(DIMENSIONS, scramble=False, bits=32).random(256)
picked = [0, 1, 2, 3, 7, 100, 255]
later = qmc.Sobol(DIMENSIONS, scramble=False, bits=32)
later.fast_forward(1_000_003)
p = [1e-300, 1e-12, 1e-6, 0.001, 0.02425, 0.074, 0.076, 0.3, 0.5, 0.9, 0.95, 0.99, 0.999999]
z = [-30.0, -8.0, -4.0, -3.6, -3.5, -1.0, -0.1, 0.0, 0.3, 1.96, 3.5, 6.0]
intervals = []
for k, n in [(0, 50), (3, 50), (50, 50), (789, 1000), (95000, 100000)]:
    for confidence in (0.9, 0.95, 0.99):
        w = stats.binomtest(k, n).proportion_ci(confidence, method="wilson")
        intervals.append({"successes": k, "trials": n, "confidence": confidence, "low": w.low, "high": w.high})
truncated = [
    {"coverage": k, "u": u, "value": float(stats.truncnorm.ppf(u, -k, k)), "sd": float(stats.truncnorm.std(-k, k))}
    for k in (1, 2, 3) for u in (0.01, 0.3, 0.5, 0.95)
]
json.dump({
    "sobol": [{"index": i, "point": points[i].tolist()} for i in picked]
             + [{"index": 1_000_003, "point": later.random(1)[0].tolist()}],
    "quantiles": [{"p": q, "z": float(stats.norm.ppf(q))} for q in p],
    "probabilities": [{"z": x, "p": float(stats.norm.cdf(x))} for x in z],
    "wilson": intervals,
    "truncated": truncated,
}, __import__("sys").stdout)
