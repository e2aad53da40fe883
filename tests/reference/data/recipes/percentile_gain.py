"""Fall of P95 and P99 of the loss when one tolerance is halved: ten runs of a million assemblies.

Equal Gaussian modes of 10.4 um MFD at 1.55 um in air, no gap (Marcuse 1977): loss in dB
4.342945 ((x^2 + y^2) / w^2 + (pi w / lambda)^2 (a^2 + b^2)) with normal x, y, a, b of 1 um, 0.3 um, 0.4 deg, 0.15 deg.
Prints the mean of ten and its standard error; kept in tests/analysis/yield/percentileGain.test.ts.
"""

import numpy as np

W_UM, WAVELENGTH_UM, DB = 5.2, 1.55, 4.342944819
SIGMA = np.array([1.0, 0.3, np.radians(0.4), np.radians(0.15)])
PER_SQUARE = DB * np.array([1 / W_UM**2, 1 / W_UM**2] + 2 * [(np.pi * W_UM / WAVELENGTH_UM) ** 2])
rng = np.random.default_rng(14)
runs = []
for _ in range(10):
    parts = rng.standard_normal((10**6, 4)) ** 2 * (SIGMA**2 * PER_SQUARE)
    loss = parts.sum(1)
    runs.append(
        [np.quantile(loss, p) - np.quantile(loss - 0.75 * parts[:, i], p) for p in (0.95, 0.99) for i in range(4)]
    )
runs = np.array(runs)
print(runs.mean(0), runs.std(0, ddof=1) / np.sqrt(10))
