# Loss of a linear slab taper by beam propagation (Crank-Nicolson, scalar, absorbing border), and the local modes along it.
# python3 with numpy and scipy; prints the JSON that the test keeps.
import json
import numpy as np
from scipy.linalg import solve_banded, eigh_tridiagonal

lam, ncore, nclad = 1.55, 1.50, 1.45
k = 2 * np.pi / lam
half, nx = 60.0, 4801
x = np.linspace(-half, half, nx)
dx = x[1] - x[0]

def index2(w):
    # area-averaged across the edge so that a width changes smoothly
    inside = np.clip((w / 2 - np.abs(x)) / dx + 0.5, 0, 1)
    return nclad**2 + (ncore**2 - nclad**2) * inside

def mode(w):
    d = index2(w) * k**2 - 2 / dx**2
    e = np.full(nx - 1, 1 / dx**2)
    val, vec = eigh_tridiagonal(d, e, select='i', select_range=(nx - 1, nx - 1))
    f = vec[:, 0]
    return np.sqrt(val[0]) / k, f * np.sign(f[nx // 2]) / np.sqrt(np.sum(f**2) * dx)

def propagate(w0, w1, length, dz=0.1):
    n0, f0 = mode(w0)
    u = f0.astype(complex)
    edge = np.clip((np.abs(x) - 45) / 15, 0, 1)
    sigma = 0.6 * edge**2
    steps = max(1, int(round(length / dz)))
    h = length / steps
    nref = n0
    for s in range(steps):
        t = (s + 0.5) / steps
        w = w0 + (w1 - w0) * t
        nref = n0  # fixed reference
        a = index2(w) * k**2 - (nref * k) ** 2 + 1j * sigma * 2 * nref * k * 0.1
        c = 1j * h / (4 * nref * k)
        main = -2 / dx**2 + a
        rhs = u + c * (main * u)
        rhs[1:] += c * u[:-1] / dx**2
        rhs[:-1] += c * u[1:] / dx**2
        ab = np.zeros((3, nx), complex)
        ab[0, 1:] = -c / dx**2
        ab[1] = 1 - c * main
        ab[2, :-1] = -c / dx**2
        u = solve_banded((1, 1), ab, rhs)
    f1 = mode(w1)[1]
    return abs(np.sum(f1 * u) * dx) ** 2

tip, wide = 0.25, 2.0
widths = np.geomspace(tip, wide, 13)
modes = [mode(w) for w in widths]
chain = {
    'widthUm': [float(w) for w in widths],
    'effectiveIndex': [float(n) for n, _ in modes],
    'claddingIndex': nclad,
    'overlap': [float(np.sum(a[1] * b[1]) * dx) for a, b in zip(modes, modes[1:])],
    'abruptOverlap': float(np.sum(modes[0][1] * modes[-1][1]) * dx),
}
lengths = [5, 10, 20, 40, 60, 80, 100, 140, 200, 300, 500]
out = {'wavelengthUm': lam, 'chain': chain, 'lossDb': [[L, float(-10 * np.log10(propagate(wide, tip, L)))] for L in lengths]}
print(json.dumps(out, indent=1))
