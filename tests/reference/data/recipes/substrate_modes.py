"""Facet modes above a substrate, quasi-TE and quasi-TM, full vector: python3 substrate_modes.py ../more-substrate-tips.json (ten minutes).

Transverse E on a graded staggered grid over the right half, interfaces on its nodes, complex coordinates as absorbing border in the substrate
and all around (Z. Zhu and T. G. Brown, Opt. Express 10 (2002) 853, from memory; eigenproblem derived from the curl equations and div(eps E) = 0).
Two grids, the cells of the core halved, extrapolated by their square. Reads the tips of the file and writes anew: effective index, leakage,
and at the best height above a round mode of 3.2 um the loss by E alone (lossDb) and by the product of both overlaps, E and H (vectorLossDb).
"""
import json
import sys

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as sla
from scipy.optimize import minimize_scalar

MFD, LAYER_STEP, GROWTH, SUBSTRATE, BORDER = 3.2, 0.04, 1.1, 1.0, 0.8


def between(a, b, at_a, at_b, most):
    """Nodes after a up to b, with steps near at_a and at_b at the ends."""
    t = np.linspace(0, b - a, 4001)
    density = 1 / np.minimum(most, np.minimum(at_a + (GROWTH - 1) * t, at_b + (GROWTH - 1) * (b - a - t)))
    total = np.concatenate([[0], np.cumsum((density[1:] + density[:-1]) / 2 * np.diff(t))])
    count = max(2, round(total[-1]))
    return a + np.interp(np.arange(1, count + 1) / count * total[-1], total, t)


def mode(tip, cells):
    te = tip["kind"] == "TE"
    k = 2 * np.pi / tip["wavelengthUm"]
    w, h, box, top = tip["widthUm"], tip["heightUm"], tip["buriedOxideUm"], tip["topUm"]
    half, air, most = tip.get("halfUm", 7.0), 1.6, 0.1
    # x: the core's edge and the mirror lie on nodes (TE, Ey and Ez vanish on the mirror) or the mirror half way between them (TM).
    dx = w / 2 / cells if te else w / 2 / (cells + 0.5)
    inside = dx * np.arange(cells + 1) if te else dx / 2 + dx * np.arange(cells + 1)
    x = np.concatenate([inside, between(w / 2, half, dx, most, most)])
    rows = round(1.2 * cells)
    dy = h / rows
    y = [[-SUBSTRATE], between(-SUBSTRATE, 0, 0.045, 0.03, 0.045), between(0, box, 0.03, dy, most), box + dy * np.arange(1, rows + 1)]
    if top > h:
        y.append(between(box + h, box + top, dy, LAYER_STEP, most))
    y.append(between(y[-1][-1], y[-1][-1] + air, dy if top <= h else LAYER_STEP, 0.06, most))
    y = np.concatenate(y)
    y[np.abs(y) < 1e-12] = 0
    xh, yh, nx, ny = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2, np.diff(x), np.diff(y)

    def permittivity(xs, ys):
        X, Y = np.meshgrid(xs, ys, indexing="ij")
        above = np.where(Y < box + top, tip.get("topIndex", tip["oxideIndex"]) ** 2, 1.0)
        stack = np.where(Y < 0, tip["substrateIndex"] ** 2, np.where(Y < box, tip["oxideIndex"] ** 2, above))
        return np.where((X < w / 2) & (Y > box) & (Y < box + h), tip["coreIndex"] ** 2, stack)

    cell = permittivity(xh, yh)
    along_y = lambda a: (a[:, :-1] * ny[:-1] + a[:, 1:] * ny[1:]) / (ny[:-1] + ny[1:])
    wide = nx if te else np.concatenate([[x[0]], nx])
    beside = cell if te else np.vstack([cell[:1], cell])
    ex, ey = along_y(cell), (beside[:-1] * wide[:-1, None] + beside[1:] * wide[1:, None]) / (wide[:-1] + wide[1:])[:, None]
    ez = along_y(ey)
    stretch = lambda c, low, high, d, s: c + 1j * s * d / 3 * (np.maximum(0, (c - high + d) / d) ** 3 - np.maximum(0, (low + d - c) / d) ** 3)
    along = lambda c: stretch(c, -9e9, half, 2.0, 2.0)
    up = lambda c: stretch(c, y[0], y[-1], BORDER, 2.0)

    def differences(nodes, halves, mirror_on_node):
        n = len(nodes)
        to_halves = sp.diags([-1 / np.diff(nodes), 1 / np.diff(nodes)], [0, 1], shape=(n - 1, n)).tocsr()
        if mirror_on_node:
            return to_halves[:, 1:-1], sp.diags([-1 / np.diff(halves), 1 / np.diff(halves)], [0, 1], shape=(n - 2, n - 1)).tocsr()
        gaps = np.diff(np.concatenate([[0], halves]))
        return to_halves[:, :-1], sp.diags([-1 / gaps, 1 / gaps], [0, 1], shape=(n - 1, n)).tocsr()[:, 1:]

    ax, bx = differences(along(x), along(xh), te)
    ay, by = differences(up(y), up(yh), True)
    xn, yn = (x[1:-1] if te else x[:-1]), y[1:-1]
    I = sp.identity
    z_x, z_y, x_z, y_z = sp.kron(ax, I(len(yn))), sp.kron(I(len(xn)), ay), sp.kron(bx, I(len(yn))), sp.kron(I(len(xn)), by)
    hx_y, hy_x, ez_y, ez_x = sp.kron(I(len(xh)), ay), sp.kron(ax, I(len(yh))), sp.kron(I(len(xh)), by), sp.kron(bx, I(len(yh)))
    Ex, Ey, Iz = sp.diags(ex.ravel()), sp.diags(ey.ravel()), sp.diags(1 / ez.ravel())
    P = sp.bmat([[k * k * Ex + ez_y @ hx_y + z_x @ Iz @ x_z @ Ex, z_x @ Iz @ y_z @ Ey - ez_y @ hy_x],
                 [z_y @ Iz @ x_z @ Ex - ez_x @ hx_y, k * k * Ey + ez_x @ hy_x + z_y @ Iz @ y_z @ Ey]]).tocsc()
    values, vectors = sla.eigs(P, k=4, sigma=(tip["effectiveIndex"] * k) ** 2)
    wx, wy = np.outer(nx, np.diff(yh)), np.outer(np.diff(xh) if te else np.diff(np.concatenate([[0], xh])), ny)
    best = None
    for value, e in zip(values, vectors.T):
        a, b = e[: ex.size].reshape(ex.shape), e[ex.size :].reshape(ey.shape)
        near = lambda f, weight, xs, ys: (np.abs(f) ** 2 * weight)[np.ix_(xs < 1.2, np.abs(ys - box - h / 2) < 1)].sum()
        share = (near(a, wx, xh, yn) + near(b, wy, xn, yh)) / ((np.abs(a) ** 2 * wx).sum() + (np.abs(b) ** 2 * wy).sum())
        if best is None or share > best[0]:
            best = (share, np.sqrt(value), a, b)
    _, beta, a, b = best
    beta = beta if beta.real > 0 else -beta
    # H of both components from curl E, Ez from div(eps E); H = n E of a plane wave.
    Z = Iz @ (x_z @ (Ex @ a.ravel()) + y_z @ (Ey @ b.ravel()))
    ha, hb = (beta * a - (z_x @ Z).reshape(a.shape) / beta) / k, (beta * b - (z_y @ Z).reshape(b.shape) / beta) / k
    wx, wy = wx * (yn > 0), wy * (yh > 0)  # what spreads in the substrate is no part of the mode
    electric = 2 * ((np.abs(a) ** 2 * wx).sum() + (np.abs(b) ** 2 * wy).sum())
    power = 2 * ((a * np.conj(ha) * wx).sum() + (b * np.conj(hb) * wy).sum()).real
    E, H, weight, xs, ys = (a, ha, wx, xh, yn) if te else (b, hb, wy, xn, yh)
    radius, gaussian = MFD / 2, np.pi * MFD**2 / 8
    over = lambda f, at: 2 * np.exp(-((xs / radius) ** 2)) @ (f * weight) @ np.exp(-(((ys - at) / radius) ** 2))
    lowest = lambda f: minimize_scalar(f, bounds=(box - 0.5, box + h + 1), method="bounded").fun
    return np.array([beta.real / k, 2 * abs(beta.imag) * 1e4 / np.log(10),
                     lowest(lambda at: -10 * np.log10(abs(over(E, at)) ** 2 / electric / gaussian)),
                     lowest(lambda at: -10 * np.log10(abs(over(E, at) * over(H, at)) / power / gaussian))])


data = json.load(open(sys.argv[1]))
for tip in data["tips"]:
    coarse, fine = (mode(tip, cells) for cells in (14, 28))
    index, leakage, loss, vector = fine + (fine - coarse) / 3
    tip.update(effectiveIndex=round(index, 5), leakageDbPerMm=float(f"{leakage:.4g}"), lossDb=round(loss, 3), vectorLossDb=round(vector, 3))
    print(tip, fine - coarse, flush=True)
rows = ",\n".join("    " + json.dumps(tip) for tip in data["tips"])
open(sys.argv[1], "w").write('{\n  "note": ' + json.dumps(data["note"], ensure_ascii=False) + ',\n  "tips": [\n' + rows + "\n  ]\n}\n")
