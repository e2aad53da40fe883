"""More relays through real lenses, aligned, written apart from the program's rays and fields: python3 more_relays.py > ../more-relays.json

The mode's exact angular spectrum runs to the vertex of the first face; each face maps the rays normal to the field there, at its vertex
plane, to the vertex plane behind it (law of refraction, flux in a tube of rays, optical path: M. Born and E. Wolf, Principles of Optics,
7th ed., sections 3.1 and 3.2, from memory); Hankel angular spectra carry the field through the glass. A graded rod is carried by its own
modes: the radial Helmholtz operator on Bessel functions, diagonalised. Every loss is computed on two grids, because a phase that is
unwrapped wrongly shows on one of them only: the smaller one counts, and losses that are kept must agree to 0.02 dB. Ten minutes.
"""
import json
import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import minimize, minimize_scalar
from scipy.special import j0, j1, jn_zeros


class Hankel:
    def __init__(self, rmax, qmax):
        x, w = np.polynomial.legendre.leggauss(int(rmax / 0.25) + 200)
        self.r, self.wr = (x + 1) / 2 * rmax, w / 2 * rmax * (x + 1) / 2 * rmax
        x, w = np.polynomial.legendre.leggauss(int(qmax * rmax / 2.2) + 200)
        self.q, self.wq = (x + 1) / 2 * qmax, w / 2 * qmax * (x + 1) / 2 * qmax
        self.J = j0(np.outer(self.q, self.r))

    def carried(self, u, k, length):
        waves = self.J @ (u * self.wr) * np.exp(1j * (np.sqrt(np.maximum(k * k - self.q**2, 0)) - k) * length)
        return (waves * self.wq) @ self.J

    def mode(self, mfd, k, gap):
        waves = np.exp(-((self.q * mfd / 4) ** 2)) * np.exp(1j * (np.sqrt(np.maximum(k * k - self.q**2, 0)) - k) * gap)
        return (waves * self.wq) @ self.J


def sag(face, r):
    c, conic = (0 if np.isinf(face["R"]) else 1 / face["R"]), face.get("conic", 0)
    root = np.sqrt(np.maximum(1 - (1 + conic) * c * c * r * r, 1e-9))
    z, slope = c * r * r / (1 + root), c * r / root
    for i, a in enumerate(face.get("A", [])):
        z, slope = z + a * r ** (4 + 2 * i), slope + (4 + 2 * i) * a * r ** (3 + 2 * i)
    return z, slope


def even(x, y):
    return CubicSpline(np.r_[-x[::-1], x], np.r_[y[::-1], y])


def refracted(H, u, face, n1, n2, k0):
    if np.isinf(face["R"]):
        return u
    amplitude, phase = np.abs(u), np.unwrap(np.angle(u))
    gone = np.nonzero(amplitude < 4e-4 * amplitude.max())[0]
    r = H.r[: gone[0] if len(gone) else len(H.r)]
    sine = np.clip(even(r, phase[: len(r)])(r, 1) / (n1 * k0), -0.95, 0.95)
    cosine = np.sqrt(1 - sine**2)
    t = np.zeros_like(r)
    for _ in range(40):
        z, slope = sag(face, np.abs(r + t * sine))
        t -= (t * cosine - z) / (cosine - slope * np.sign(r + t * sine) * sine)
    at = r + t * sine
    z, slope = sag(face, np.abs(at))
    nx, nz = -slope / np.hypot(1, slope), 1 / np.hypot(1, slope)
    mu, incidence = n1 / n2, nx * sine + nz * cosine
    square = 1 - mu**2 * (1 - incidence**2)
    bend = np.sqrt(np.maximum(square, 1e-12)) - mu * incidence
    dx, dz = mu * sine + bend * nx, mu * cosine + bend * nz
    out = at - z / dz * dx
    wrong = np.nonzero((square <= 0) | (out <= 0) | (np.r_[1, np.diff(out)] <= 1e-9))[0]
    end = wrong[0] if len(wrong) else len(r)
    path = (n1 * t - n2 * z / dz)[:end]
    spread = CubicSpline(np.r_[-r[:end][::-1], r[:end]], np.r_[-out[:end][::-1], out[:end]])(r[:end], 1)
    level = amplitude[:end] * np.sqrt((cosine * r)[:end] / (dz[:end] * out[:end] * np.maximum(spread, 1e-6)))
    inside, made = H.r < out[end - 1], np.zeros(len(H.r), complex)
    made[inside] = even(out[:end], level)(H.r[inside]) * np.exp(1j * even(out[:end], phase[:end] + k0 * path)(H.r[inside]))
    return made


def through_rod(H, u, lens, k0, reach=260.0, count=260):
    zeros = jn_zeros(0, count)
    x, w = np.polynomial.legendre.leggauss(900)
    r = (x + 1) / 2 * reach
    weight = w / 2 * reach * r
    basis = lambda at: j0(np.outer(at, zeros / reach)) * np.sqrt(2) / (reach * np.abs(j1(zeros)))
    square = (lens["gPerUm"] * r) ** 2
    index = np.maximum(lens["index"] * (1 - square / 2 + lens["fourth"] * square**2), 1.2)
    B = basis(r)
    values, vectors = np.linalg.eigh(B.T @ (B * (weight * (k0 * index) ** 2)[:, None]) - np.diag((zeros / reach) ** 2))
    inside = np.minimum(r, H.r[-1])
    field = (CubicSpline(H.r, u.real)(inside) + 1j * CubicSpline(H.r, u.imag)(inside)) * (r < H.r[-1])
    turn = np.exp(1j * (np.sqrt(np.maximum(values, 0)) - lens["index"] * k0) * lens["thicknessUm"])
    return basis(np.minimum(H.r, reach)) @ (vectors @ (vectors.T @ (B.T @ (weight * field)) * turn)) * (H.r < reach)


def faces(lens):
    if lens["kind"] == "ball":
        d = lens["diameterUm"]
        return {"R": d / 2}, {"R": -d / 2}, d
    if lens["kind"] == "biconvex":
        return {"R": lens["frontUm"]}, {"R": -lens["backUm"]}, lens["thicknessUm"]
    aspheric = [-a for a in lens.get("asphericPerUm", [])]
    return {"R": np.inf}, {"R": -lens["radiusUm"], "conic": lens.get("conic", 0), "A": aspheric}, lens["thicknessUm"]


def through(H, mfd, lens, gap, k0):
    u = H.mode(mfd, k0, gap)
    if lens["kind"] == "rod":
        u = through_rod(H, u, lens, k0)
    else:
        first, last, thickness = faces(lens)
        u = H.carried(refracted(H, u, first, 1, lens["index"], k0), lens["index"] * k0, thickness)
        u = refracted(H, u, last, lens["index"], 1, k0)
    return u


def matrix(lens):
    n = lens["index"]
    if lens["kind"] == "rod":
        g, a = lens["gPerUm"], lens["gPerUm"] * lens["thicknessUm"]
        return np.array([[np.cos(a), np.sin(a) / (n * g)], [-n * g * np.sin(a), np.cos(a)]])
    first, last, t = faces(lens)
    bend = lambda power: np.array([[1, 0], [-power, 1]])
    return bend((1 - n) / last["R"]) @ np.array([[1, t / n], [0, 1]]) @ bend((n - 1) / first["R"])


def paraxial_gaps(row, stretch):
    lam, m1, m2 = row["wavelengthUm"], matrix(row["lens1"]), matrix(row["lens2"])

    def loss(gaps):
        def behind(m, mfd, gap):
            q = gap + 1j * np.pi * (mfd / 2) ** 2 / lam
            return (m[0, 0] * q + m[0, 1]) / (m[1, 0] * q + m[1, 1])
        a, b = behind(m1, row["nearMfdUm"], abs(gaps[0])) + stretch, behind(m2, row["farMfdUm"], abs(gaps[1]))
        return -10 * np.log10(4 * a.imag * b.imag / abs(a + b) ** 2)

    starts = [[-m1[1, 1] / m1[1, 0] * (1 + d), -m2[1, 1] / m2[1, 0] * (1 + d)] for d in np.linspace(-0.05, 0.4, 8)]
    found = [minimize(loss, start, method="Nelder-Mead", options={"xatol": 1e-3, "fatol": 1e-9, "maxiter": 3000}) for start in starts]
    best = next(each for each in found if each.fun < min(f.fun for f in found) + 1e-6)
    return [float(round(abs(x), 2)) for x in best.x]


def solved(row):
    lam = row["wavelengthUm"]
    k0, stretch = 2 * np.pi / lam, row["stretchUm"] - 500 * (1 - 1 / 1.5)
    front, back = paraxial_gaps(row, stretch)
    wide = lambda mfd, lens, gap: mfd / 2 * np.hypot(1, (gap + lens.get("thicknessUm", lens.get("diameterUm"))) * lam / np.pi / (mfd / 2) ** 2)
    reach = min(130.0, max(wide(row["nearMfdUm"], row["lens1"], front), wide(row["farMfdUm"], row["lens2"], back)))
    grids = [Hankel(share * reach, k0 * 0.985) for share in (3.4, 4.1)]
    near = [H.carried(through(H, row["nearMfdUm"], row["lens1"], front, k0), k0, stretch) for H in grids]

    def losses(gap):
        def one(H, n):
            m = through(H, row["farMfdUm"], row["lens2"], gap, k0)
            return -10 * np.log10(abs(np.sum(n * m * H.wr)) ** 2 / np.sum(abs(n) ** 2 * H.wr) / np.sum(abs(m) ** 2 * H.wr))
        return [one(H, n) for H, n in zip(grids, near)]

    best = minimize_scalar(lambda gap: min(losses(gap)), bounds=(0.75 * back, 1.15 * back), method="bounded", options={"xatol": 0.05})
    for gap in (back, best.x):
        if np.ptp(losses(gap)) > 0.02:
            raise ValueError(f"{row}: {losses(gap)} at {gap}")
    return {**row, "frontGapUm": front, "backGapUm": back, "realDb": round(min(losses(back)), 4),
            "refocusedDb": round(float(best.fun), 4), "refocusedUm": round(float(best.x), 2)}


plano = lambda index, radius, thickness, **more: {"kind": "plano-convex", "index": index, "radiusUm": radius, "thicknessUm": thickness, **more}
ball = lambda index, diameter: {"kind": "ball", "index": index, "diameterUm": diameter}
rod = lambda index, g, length, fourth: {"kind": "rod", "index": index, "gPerUm": g, "thicknessUm": length, "fourth": fourth}
row = lambda lens1, lens2, near, far, stretch, wavelength=1.55: {
    "lens1": lens1, "lens2": lens2, "nearMfdUm": near, "farMfdUm": far, "stretchUm": stretch, "wavelengthUm": wavelength}
ROWS = [
    row(ball(1.5007, 800), ball(1.8, 300), 10.4, 4, 4000),
    row(plano(1.5007, 400, 400), plano(3.4757, 500, 400), 9.2, 4.5, 2500, 1.31),
    row({"kind": "biconvex", "index": 1.7462, "frontUm": 900, "backUm": 600, "thicknessUm": 500}, ball(1.7462, 400), 10.4, 3.5, 3000),
    row(plano(1.5007, 500, 500, asphericPerUm=[-1.5e-10]), plano(1.7462, 350, 300), 10.4, 4.5, 3000),
    row(rod(1.59, 2 * np.pi * 0.22 / 2500, 2500, 0.5), rod(1.634, 2 * np.pi * 0.21 / 1600, 1600, 0.9), 10.4, 6.5, 2500),
    row(rod(1.607, 0.000603, 2400, 0.667), ball(1.7462, 300), 10.4, 3.2, 3000),
]
NOTE = "Mismatch of the joint only, aligned, in air, by recipes/more_relays.py; a plate of 500 um and index 1.5 lies in the stretch. realDb at the paraxial gaps, refocusedDb with the back gap moved."
print(json.dumps({"note": NOTE, "relays": [solved(each) for each in ROWS]}, indent=1))
