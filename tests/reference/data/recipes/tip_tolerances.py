"""Tolerances of lensed fibres across a gap by brute force: python3 tip_tolerances.py > ../tip-tolerances.json (three minutes).

The Gaussian mode of the fibre is refracted at every point of the sphere as a plane wave at its tangent plane; Kirchhoff's integral with the
point source exp(i k s) / s, in real space, over radius and azimuth of the sphere (M. Born and E. Wolf, Principles of Optics, 7th ed.,
sect. 8.3, from memory) gives the field in front of it on a table of radius and distance. Every assembly has its own facet, shifted and turned
in that field: the field at the points of the facet times the facet's mode, summed. No plane waves, no fit, no Gaussian joint; the
turn is rigid. The silicon facets are the sampled modes of field-tolerances.json. Losses are beyond a flat face of the same index.

Draws: 8,192 points of `draws`, gap uniform, offsets and tilts normal with +/- of two standard deviations.
"""
import base64
import json
import pathlib
import sys

import numpy as np
from scipy import stats
from scipy.interpolate import RectBivariateSpline
from scipy.optimize import minimize_scalar

DRAWS = 2**13
HERE = pathlib.Path(__file__).resolve().parent.parent
MODES = json.loads((HERE / "field-tolerances.json").read_text())["modes"]


def draws(count, axes):
    """Points of an additive recurrence, the same in any language: fraction of 1/2 + i / phi^j, phi^(axes + 1) = phi + 1 (from memory)."""
    phi = 2.0
    for _ in range(60):
        phi = (1 + phi) ** (1 / (axes + 1))
    steps = phi ** -np.arange(1, axes + 1)
    return (0.5 + np.arange(1, count + 1)[:, None] * steps) % 1


def gauss(n, low, high):
    x, w = np.polynomial.legendre.leggauss(n)
    return low + (high - low) * (x + 1) / 2, w * (high - low) / 2


def tip_field(w, R, n, m, wavelength, r_most, z_from, z_to):
    """Complex field on a table of r and z from the apex, phase exp(i k z) taken out, over sqrt of the mode's power through a flat face."""
    k0 = 2 * np.pi / wavelength
    k = m * k0
    rho, drho = gauss(160, 0, min(R * 0.9999, 3.6 * w))
    phi = (np.arange(96) + 0.5) * np.pi / 96  # half the circle: the other half is its mirror image
    sin_i = rho / R
    cos_i = np.sqrt(1 - sin_i**2)
    sag = R - R * cos_i
    cos_t = np.sqrt(1 - (n * sin_i / m) ** 2 + 0j)
    t = 2 * n * cos_i / (n * cos_i + m * cos_t)
    u = np.exp(-((rho / w) ** 2)) * t * np.exp(-1j * n * k0 * sag)  # on the sphere, phase 0 at the apex
    slope = 1j * k * cos_t * u  # along the outward normal
    area = rho * drho / cos_i * (2 * np.pi / 96)
    r = np.arange(0, r_most + 0.1, 0.1)
    z = np.arange(z_from, z_to + 0.2, 0.2)
    out = np.zeros((len(r), len(z)), complex)
    # Sphere points (rho cos phi, rho sin phi, -sag), normals (sin i cos phi, sin i sin phi, cos i).
    px = (rho[:, None] * np.cos(phi)).ravel()
    py = (rho[:, None] * np.sin(phi)).ravel()
    pz = np.repeat(-sag, 96)
    nx = (sin_i[:, None] * np.cos(phi)).ravel()
    ny = (sin_i[:, None] * np.sin(phi)).ravel()
    nz = np.repeat(cos_i, 96)
    U, S, dA = (np.repeat(each, 96) for each in (u, slope, area))
    for i, ri in enumerate(r):
        for j, zj in enumerate(z):
            dx, dy, dz = ri - px, -py, zj - pz
            s = np.sqrt(dx * dx + dy * dy + dz * dz)
            green = np.exp(1j * k * (s - zj)) / s
            along = (dx * nx + dy * ny + dz * nz) / s  # d s / d n is -along at the source
            out[i, j] = np.sum((U * green * (1j * k - 1 / s) * (-along) - green * S) * dA)
    # u = 1/(4 pi) int (u dG/dn - G du/dn), the normal pointing to the observer.
    flat = 2 * n / (n + m)
    power = np.pi * w * w / 2 * flat**2
    return r, z, out / (4 * np.pi) / np.sqrt(power), k


class Facet:
    """Points of the facet and its mode there, of unit power."""

    def __init__(self, row):
        if "mode" in row:
            mode = MODES[row["mode"]]
            nx, ny = mode["nx"], mode["ny"]
            values = np.frombuffer(base64.b64decode(mode["re"]["base64"]), "<f4").astype(float).reshape(ny, nx)
            x, y = mode["x0Um"] + np.arange(nx) * mode["dxUm"], mode["y0Um"] + np.arange(ny) * mode["dyUm"]
            spline = RectBivariateSpline(y, x, values)
            side = np.arange(-5, 5.001, 0.125)
            X, Y = np.meshgrid(side, side)
            mode = spline(side, side)
        else:
            a, b = row["facetMfdUm"][0] / 2, row["facetMfdUm"][1] / 2
            side = np.arange(-5, 5.001, 0.2)
            X, Y = np.meshgrid(side, side)
            mode = np.exp(-((X / a) ** 2) - (Y / b) ** 2)
        near = mode > 1e-4 * mode.max()
        cell = (side[1] - side[0]) ** 2
        self.x, self.y, self.mode = X[near], Y[near], mode[near] * cell / np.sqrt(np.sum(mode**2) * cell)


def losses(field, facet, poses):
    r, z, table, k = field
    # r = 0 is a mirror: the table is even in r.
    rr = np.concatenate([-r[6:0:-1], r])
    whole = np.concatenate([table[6:0:-1], table])
    re, im = RectBivariateSpline(rr, z, whole.real), RectBivariateSpline(rr, z, whole.imag)
    out = np.empty(len(poses))
    for i, (gap, ox, oy, tx, ty) in enumerate(poses):
        axis = np.array([tx, ty, 1]) / np.sqrt(1 + tx * tx + ty * ty)
        dx, dy = facet.x - ox, facet.y - oy
        along = dx * axis[0] + dy * axis[1] + gap * axis[2]
        across = np.sqrt(np.maximum(0, dx * dx + dy * dy + gap * gap - along * along))
        u = (re.ev(across, along) + 1j * im.ev(across, along)) * np.exp(1j * k * (along - gap))
        out[i] = -10 * np.log10(abs(np.sum(u * facet.mode)) ** 2)
    return out


rows = []
for tip in [
    {"facetMfdUm": [3.4, 2.8], "modeRadiusUm": 5.2, "tipRadiusUm": 10, "fibreIndex": 1.444, "offsetsUm": 0.8},
    {"facetMfdUm": [4.2, 3.6], "modeRadiusUm": 5.2, "tipRadiusUm": 14, "fibreIndex": 1.444, "offsetsUm": 1.2},
    {"mode": "surface", "modeRadiusUm": 5.2, "tipRadiusUm": 9, "fibreIndex": 1.444, "offsetsUm": 0.8},
]:
    wavelength, n, w, R = 1.55, tip["fibreIndex"], tip["modeRadiusUm"], tip["tipRadiusUm"]
    g = np.pi * w * w * (n - 1) / wavelength / R
    far = R / (n - 1) / (1 + 1 / g**2)
    field = tip_field(w, R, n, 1, wavelength, 9.5, max(1.5, far * 0.55 - 3), far * 1.1 + 3)
    facet = Facet(tip)
    ask = lambda poses: losses(field, facet, np.asarray(poses, float))
    best = minimize_scalar(lambda gap: ask([[gap, 0, 0, 0, 0]])[0], bounds=(far * 0.6, far * 1.1), method="bounded").x
    gap = round(float(best), 1)
    middle = np.array([gap, 0, 0, 0, 0.0])
    nominal = ask([middle])[0]
    for tilts in (0, 1.5):
        ends = np.array([2, tip["offsetsUm"], tip["offsetsUm"], np.radians(tilts), np.radians(tilts)])
        signs = np.array(np.meshgrid(*[[-1, 1]] * 5)).reshape(5, -1).T
        alone = ask([middle + sign * ends * np.eye(5)[i] for i in range(5) for sign in (-1, 1)]).reshape(5, 2).max(1) - nominal
        points = draws(DRAWS, 5)
        drawn = ask(middle + np.column_stack([2 * (2 * points[:, 0] - 1), stats.norm.ppf(points[:, 1:]) * ends[1:] / 2]))
        found = dict(gapUm=gap, tiltsDeg=tilts, nominalDb=nominal, rssDb=nominal + np.sqrt(np.sum(np.maximum(alone, 0) ** 2)),
                     worstDb=ask(middle + signs * ends).max(), p50Db=np.quantile(drawn, 0.5), p95Db=np.quantile(drawn, 0.95),
                     p99Db=np.quantile(drawn, 0.99))
        rows.append({**tip, **{key: round(float(value), 4) for key, value in found.items()}})
        print(rows[-1], [round(float(x), 4) for x in alone], file=sys.stderr)
print(json.dumps({"note": "Tolerances of lensed fibres across a gap by recipes/tip_tolerances.py: Kirchhoff's integral over the sphere in real space, 8,192 assemblies. Gap +/- 2 um uniform, offsets and tilts as given, normal, two standard deviations; 1550 nm, air.",
                  "rows": rows}, indent=1))
