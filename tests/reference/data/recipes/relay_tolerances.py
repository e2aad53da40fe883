"""Tolerances of two-lens relays by brute force: python3 relay_tolerances.py > ../relay-tolerances.json (ten minutes), and single
misalignments of three relays: python3 relay_tolerances.py --singles > ../misaligned-relays.json (half a minute). How far the chip may go in
those and in one of silicon lenses: python3 relay_tolerances.py --windows > ../relay-windows.json (half a minute).

Every assembly has its own guides, lenses and gaps, and is traced anew. The field of a guide in a plane shortly before its lens is a Hankel
integral of its exact angular spectrum; it moves with the guide. Rays normal to its wavefront, on rings, are refracted as vectors at the
faces of the lens, which is shifted and turned as a whole (M. Born and E. Wolf, Principles of Optics, 7th ed., sections 3.1.2 and 3.2, from
memory); amplitude by the area of the tube of rays, phase by the optical path. Each side becomes plane waves by a direct sum over its rays, and
the two are overlapped over the distance between the lenses. No paraxial relay, no coma to first order, no fit.

Draws: 4,096 points of `draws`; gaps uniform, everything else normal with +/- of two standard deviations. The worst case is the
worst of all corners, less those that mirrors repeat. Single misalignments are those at which a relay loses about 0.1, 0.5, 1.5 and 3 dB more.
"""
import json
import sys

import numpy as np
from scipy import stats
from scipy.integrate import simpson
from scipy.interpolate import make_interp_spline
from scipy.optimize import minimize
from scipy.special import j0

WAVELENGTH, DRAWS = 1.55, 2**12
K = 2 * np.pi / WAVELENGTH
RINGS, AZIMUTHS, REACH = 26, 36, 2.6
PLATE_UM, PLATE_INDEX = 500, 1.5
WAVES, SPREAD = 40, 14


def draws(count, axes):
    """Points of an additive recurrence, the same in any language: fraction of 1/2 + i / phi^j, phi^(axes + 1) = phi + 1 (from memory)."""
    phi = 2.0
    for _ in range(60):
        phi = (1 + phi) ** (1 / (axes + 1))
    steps = phi ** -np.arange(1, axes + 1)
    return (0.5 + np.arange(1, count + 1)[:, None] * steps) % 1


def rings():
    x, w = np.polynomial.legendre.leggauss(RINGS)
    return (x + 1) / 2, w / 2


def slopes(x):
    """Matrix of the derivative of the polynomial through values at x."""
    b = np.array([1 / np.prod(x[i] - np.delete(x, i) + 0.0) for i in range(len(x))] )
    d = (b[None, :] / b[:, None]) / (x[:, None] - x[None, :] + np.eye(len(x)))
    np.fill_diagonal(d, 0)
    np.fill_diagonal(d, -d.sum(1))
    return d


class Guide:
    """Rays and power of a guide's mode in a plane `from_um` before it, in the frame of the guide."""

    def __init__(self, mfd, from_um):
        w = mfd / 2
        q = np.linspace(0, min(0.9995 * K, 11 / w), 6001)
        spectrum, kz = np.exp(-((q * w / 2) ** 2)), np.sqrt(K * K - q * q)
        wz = np.hypot(w, WAVELENGTH / np.pi / w * from_um)
        radius = np.linspace(0, 1.05 * REACH * wz, 600)
        factor = spectrum * q * np.exp(1j * (kz - K) * from_um)
        u = np.array([simpson(factor * j0(q * r), x=q) for r in radius])
        power = 2 * np.pi * simpson(spectrum**2 * q * kz / K, x=q)
        phase = make_interp_spline(radius, np.unwrap(np.angle(u)), k=5)
        size = make_interp_spline(radius, np.log(abs(u)), k=5)
        unit, weight = rings()
        r = unit * REACH * wz
        angle = (np.arange(AZIMUTHS) + 0.5) * 2 * np.pi / AZIMUTHS
        sine = phase.derivative()(r) / K
        cos, sin = np.cos(angle), np.sin(angle)
        each = lambda ring: np.repeat(ring, AZIMUTHS)
        self.at = np.array([(r[:, None] * cos).ravel(), (r[:, None] * sin).ravel(), np.full(r.size * AZIMUTHS, float(from_um))])
        self.along = np.array([(sine[:, None] * cos).ravel(), (sine[:, None] * sin).ravel(), each(np.sqrt(1 - sine**2))])
        self.phase = each(phase(r))
        self.share = each(np.exp(size(r)) * np.sqrt(np.sqrt(1 - sine**2)) * r * weight * REACH * wz) * 2 * np.pi / AZIMUTHS / np.sqrt(power)
        self.r = each(r)
        self.by_ring = slopes(r)


def turned(tx, ty):
    """Rotation that takes the axis to the slopes tx, ty."""
    axis = np.array([np.tan(tx), np.tan(ty), 1])
    axis /= np.linalg.norm(axis)
    v, c = np.array([-axis[1], axis[0], 0]), axis[2]
    cross = np.array([[0, 0, v[1]], [0, 0, -v[0]], [-v[1], v[0], 0]])
    return np.eye(3) + cross + cross @ cross / (1 + c)


def refract(d, normal, before, after):
    mu = before / after
    cosine = np.sum(d * normal, 0)
    return mu * d + (np.sqrt(1 - mu * mu * (1 - cosine * cosine)) - mu * cosine) * normal


def waves_of(guide, gap, guide_pose, lens, lens_pose, k_axis):
    """Plane waves behind the lens, on the grid of k_axis, in the plane of its last vertex as it is in line."""
    ox, oy, tx, ty = guide_pose
    turn = turned(np.arctan(tx), np.arctan(ty))
    p = turn @ guide.at + np.array([[ox], [oy], [0]])
    d = turn @ guide.along
    lx, ly, ltx, lty = lens_pose
    n, t, c, conic = lens["index"], lens["thicknessUm"], 1 / lens["radiusUm"], lens["conic"]
    middle = np.array([[lx], [ly], [gap + t / 2]])
    frame = turned(ltx, lty)
    p, d = frame.T @ (p - middle), frame.T @ d
    # Plane face at -t/2.
    s = (-t / 2 - p[2]) / d[2]
    p, path = p + s * d, s
    d = refract(d, np.array([[0], [0], [1.0]]), 1, n)
    # Convex face: z = t/2 - sag.
    s = (t / 2 - p[2]) / d[2]
    for _ in range(7):
        x, y, z = p + s * d
        r2 = x * x + y * y
        root = np.sqrt(1 - (1 + conic) * c * c * r2)
        sag, slope = c * r2 / (1 + root), c / root
        s = s - (z - t / 2 + sag) / (d[2] + slope * (x * d[0] + y * d[1]))
    p, path = p + s * d, path + n * s
    normal = np.array([slope * p[0], slope * p[1], np.ones_like(slope)])
    normal /= np.linalg.norm(normal, axis=0)
    d = refract(d, normal, n, 1)
    p, d = frame @ p + middle, frame @ d
    s = (gap + t - p[2]) / d[2]
    p, path = p + s * d, path + s
    x, y = p[0].reshape(RINGS, AZIMUTHS), p[1].reshape(RINGS, AZIMUTHS)
    order = np.fft.fftfreq(AZIMUTHS, 1 / AZIMUTHS) * 1j
    order[AZIMUTHS // 2] = 0
    round_ = lambda f: np.fft.ifft(np.fft.fft(f, axis=1) * order, axis=1).real
    jacobian = ((guide.by_ring @ x) * round_(y) - round_(x) * (guide.by_ring @ y)).ravel() / guide.r
    field = guide.share * np.sqrt(np.maximum(0, jacobian) / d[2]) * np.exp(1j * (guide.phase + K * (path - path[0])))
    along_x, along_y = np.exp(-1j * np.outer(k_axis, p[0])), np.exp(-1j * np.outer(k_axis, p[1]))
    return (along_y * field) @ along_x.T


class Relay:
    def __init__(self, row):
        self.row = row
        self.first = Guide(row["nearMfdUm"], row["gapsUm"][0] - 30)
        self.second = Guide(row["farMfdUm"], row["gapsUm"][1] - 20)
        # Radius of the wider beam, of the narrower one: far-field angles times focal lengths.
        focal = [row[name]["radiusUm"] / (row[name]["index"] - 1) for name in ("lens1", "lens2")]
        beams = [f * WAVELENGTH / np.pi / (mfd / 2) for f, mfd in zip(focal, (row["nearMfdUm"], row["farMfdUm"]))]
        most = SPREAD / min(beams)
        self.k = (np.arange(WAVES) - (WAVES - 1) / 2) * 2 * most / WAVES
        kx, ky = np.meshgrid(self.k, self.k)
        square = kx**2 + ky**2
        turn = lambda index, length: (np.sqrt((index * K) ** 2 - square) - index * K) * length
        self.over = np.exp(1j * (turn(1, row["stretchUm"] - PLATE_UM) + turn(PLATE_INDEX, PLATE_UM))) * (self.k[1] - self.k[0]) ** 2 / (4 * np.pi**2)

    def loss(self, v):
        """v: guide x, y, tilt x, y; front and back gap less nominal; lens 1 x, y, tilt x, y; lens 2 likewise; chip likewise."""
        row = self.row
        one = waves_of(self.first, row["gapsUm"][0] + v[4], v[0:4], row["lens1"], v[6:10], self.k)
        # Seen from the far guide, slopes of lens 2 turn round.
        two = waves_of(self.second, row["gapsUm"][1] + v[5], v[14:18] * np.array([1, 1, -1, -1]) if len(v) > 14 else (0, 0, 0, 0), row["lens2"], v[10:14] * np.array([1, 1, -1, -1]), self.k)
        return -10 * np.log10(abs(np.sum(one * two[::-1, ::-1] * self.over)) ** 2)


NAMES = ["offsetX", "offsetY", "tiltX", "tiltY", "frontGap", "backGap"] + [f"{lens} {axis}" for lens in ("lens1", "lens2") for axis in ("offsetX", "offsetY", "tiltX", "tiltY")]
PLANO = lambda index, t, radius, conic: {"index": index, "thicknessUm": t, "radiusUm": radius, "conic": conic}


SINGLES = [
    {"lens1": PLANO(1.444, 500, 500, -0.6), "lens2": PLANO(1.7462, 300, 320, -0.4), "gapsUm": [946.4, 229.1], "farMfdUm": 4.0, "stretchUm": 2000},
    {"lens1": PLANO(1.444, 500, 500, 0), "lens2": PLANO(1.7462, 300, 320, 0), "gapsUm": [938.2, 222.2], "farMfdUm": 4.0, "stretchUm": 2000},
    {"lens1": PLANO(1.44402, 500, 500, 0), "lens2": PLANO(3.4757, 500, 700, 0), "gapsUm": [902.4, 123.7], "farMfdUm": 3.0, "stretchUm": 3000},
]
SILICON = {"lens1": PLANO(3.4757, 500, 700, 0), "lens2": PLANO(3.4757, 200, 250, 0), "gapsUm": [143.5, 46.73], "farMfdUm": 3.1, "stretchUm": 2700}


def windows():
    """Displacements of the chip, to either side, at which a relay loses 0.5, 1 and 3 dB more than where it works."""
    rows = []
    for row in SINGLES + [SILICON]:
        row = {**row, "nearMfdUm": 10.4}
        relay = Relay(row)
        nominal = relay.loss(np.zeros(18))
        found = {}
        # A chip that moves away from the lens lengthens the back gap.
        for name, k, step in (("offsetX", 14, 0.1), ("tiltX", 16, 0.01), ("gap", 5, 0.5)):
            sides = {}
            for side, sign in (("below", -1), ("above", 1)):
                move = sign * np.eye(18)[k]
                ends = []
                for target in (0.5, 1, 3):
                    low, high = 0.0, step
                    while relay.loss(high * move) - nominal < target:
                        low, high = high, 1.3 * high
                    for _ in range(14):
                        middle = (low + high) / 2
                        low, high = (middle, high) if relay.loss(middle * move) - nominal < target else (low, middle)
                    # None where the outermost rays miss the sphere first.
                    ends.append(float(f"{high:.4g}") if np.isfinite(relay.loss(high * move)) else None)
                sides[side] = ends
            found[name] = sides
        rows.append({**row, "nominalDb": round(float(nominal), 4), "windows": found})
        print(rows[-1], file=sys.stderr)
    note = "How far the chip may go in two-lens relays for 0.5, 1 and 3 dB more, by recipes/relay_tolerances.py --windows: rays through the lenses and plane waves between them. um and rad, tilts about the facet; 1550 nm, a plate of 500 um, n = 1.5 between the lenses."
    print(json.dumps({"note": note, "rows": rows}, indent=1))


def singles():
    """One misalignment at a time, about the losses that matter."""
    rows = []
    for row in SINGLES:
        row = {**row, "nearMfdUm": 10.4}
        relay = Relay(row)
        nominal = relay.loss(np.zeros(18))
        cases = []
        names = NAMES + [f"chip {axis}" for axis in ("offsetX", "offsetY", "tiltX", "tiltY")]
        for k, name in enumerate(names):
            # The other plane is a mirror of this one; it is looked at for lens 2 alone.
            if name.endswith("Y") and not name.startswith("lens2"):
                continue
            move = np.eye(18)[k]
            # Rays do not follow the spread of a mode inside the glass, which moves the best focus by 0.7 um: gaps are looked at on both sides.
            sides = (-1, 1) if "Gap" in name else (1,)
            added = lambda by: np.mean([relay.loss(side * by * move) for side in sides]) - nominal
            for target in (0.1, 0.5, 1.5, 3):
                low, high = 0.0, 1e-3 if "tilt" in name else 0.3
                while added(high) < target:
                    low, high = high, 1.4 * high
                for _ in range(8):
                    middle = (low + high) / 2
                    low, high = (middle, high) if added(middle) < target else (low, middle)
                by = float(f"{high:.3g}")
                cases.append({"moved": name, "by": by, "addedDb": round(float(added(by)), 4)})
        rows.append({**row, "nominalDb": round(float(nominal), 4), "cases": cases})
    note = "What single misalignments of two-lens relays add, by recipes/relay_tolerances.py --singles: rays through the moved lenses and plane waves between them. um and rad; gaps by the mean of both directions; the chip turns about its facet; 1550 nm, a plate of 500 um, n = 1.5 between the lenses."
    print(json.dumps({"note": note, "rows": rows}, indent=1))


if "--singles" in sys.argv:
    singles()
    sys.exit()
if "--windows" in sys.argv:
    windows()
    sys.exit()
rows = []
for row in [
    {"lens1": PLANO(1.444, 500, 500, -0.6), "lens2": PLANO(1.7462, 300, 320, -0.4), "gapsUm": [946.4, 229.1]},
    {"lens1": PLANO(1.444, 500, 500, 0), "lens2": PLANO(1.7462, 300, 320, 0), "gapsUm": [930.0, 225.0]},
]:
    row = {**row, "nearMfdUm": 10.4, "farMfdUm": 4.0, "stretchUm": 2000,
           "plusMinus": {"offsetUm": 1, "tiltDeg": 0.3, "frontUm": 6, "backUm": 1, "lens1Um": 1, "lens1Deg": 0.5, "lens2Um": 0.5, "lens2Deg": 0.5}}
    if row["lens1"]["conic"] == 0:
        def at_gaps(gaps):
            return Relay({**row, "gapsUm": list(gaps)}).loss(np.zeros(14))
        row["gapsUm"] = [round(float(each), 1) for each in minimize(at_gaps, row["gapsUm"], method="Nelder-Mead", options={"xatol": 0.1, "fatol": 1e-4, "initial_simplex": [[930, 225], [945, 226], [935, 229]]}).x]
    relay = Relay(row)
    by = row["plusMinus"]
    rad = lambda name: np.radians(by[name])
    ends = np.array([by["offsetUm"], by["offsetUm"], rad("tiltDeg"), rad("tiltDeg"), by["frontUm"], by["backUm"],
                     by["lens1Um"], by["lens1Um"], rad("lens1Deg"), rad("lens1Deg"), by["lens2Um"], by["lens2Um"], rad("lens2Deg"), rad("lens2Deg")])
    nominal = relay.loss(np.zeros(14))
    alone = [max(relay.loss(sign * ends * np.eye(14)[i]) for sign in (-1, 1)) - nominal for i in range(14)]
    print(row["gapsUm"], round(nominal, 4), {name: round(float(each), 4) for name, each in zip(NAMES, alone)}, file=sys.stderr)
    if "--ends" in sys.argv:
        continue
    points = draws(DRAWS, 14)
    normal = stats.norm.ppf(points) / 2
    normal[:, 4:6] = 2 * points[:, 4:6] - 1
    drawn = np.array([relay.loss(v) for v in normal * ends])
    # Mirrors: signs of guide x and of guide y are free.
    signs = np.array(np.meshgrid(*[[-1, 1]] * 12)).reshape(12, -1).T
    signs = np.column_stack([np.ones((len(signs), 2)), signs])
    worst = max(relay.loss(v) for v in signs * ends)
    found = dict(nominalDb=nominal, rssDb=nominal + np.sqrt(np.sum(np.maximum(alone, 0) ** 2)), worstDb=worst,
                 p50Db=np.quantile(drawn, 0.5), p95Db=np.quantile(drawn, 0.95), p99Db=np.quantile(drawn, 0.99))
    rows.append({**row, **{key: round(float(value), 4) for key, value in found.items()}})
    print(rows[-1], file=sys.stderr)
print(json.dumps({"note": f"Tolerances of two-lens relays by recipes/relay_tolerances.py: rays through the moved lenses and plane waves between them, {DRAWS} assemblies. Gaps uniform, all else normal with two standard deviations; 1550 nm, a plate of 500 um, n = 1.5 between the lenses.",
                  "rows": rows}, indent=1))
