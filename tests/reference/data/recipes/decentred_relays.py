"""Coupling through two real lenses, decentred: written apart from the program's ray trace and its fields.

Each guide's Gaussian is carried to the vertex plane of its lens by a Hankel integral of its exact angular spectrum; rays normal to
the wavefront found there are refracted in three dimensions, vector by vector, at spheres about their own centres (M. Born and E. Wolf,
Principles of Optics, 7th ed., section 3.2: law of refraction; 3.1.2: flux in a tube of rays), as far as the plane behind the lens;
amplitude by the area of the tube, phase by the optical path. Field 1 goes through the collimated section by its angular spectrum on a
square grid, and is overlapped there with the field traced backwards from the other guide. Writes decentred-relays.json beside
real-relays.json, whose lenses and distances are used: those three whose modes are at least six Rayleigh ranges away from their lenses,
where rays carry the field through the glass (at 1.6 Rayleigh ranges they miss diffraction by 1.2 dB). Takes some minutes.
"""

import json
import pathlib

import numpy as np
from scipy.integrate import simpson
from scipy.interpolate import CloughTocher2DInterpolator, CubicSpline
from scipy.special import j0

HERE = pathlib.Path(__file__).resolve().parent.parent
WAVELENGTH = 1.55
K = 2 * np.pi / WAVELENGTH
GRID, HALF = 256, 400.0
RAYS = 81
REACH = 2.4  # of the 1/e^2 radius of intensity


def radial_field(waist, distance, r):
    """Amplitude and phase of a Gaussian guide mode at a distance, by its exact plane waves."""
    q = np.linspace(0, min(K * 0.999, 9 / waist), 4001)
    spectrum = np.exp(-((q * waist / 2) ** 2)) * q
    kz = np.sqrt(K**2 - q**2)
    phase = np.exp(1j * (kz - K) * distance)
    return np.array([simpson(spectrum * phase * j0(q * each), x=q) for each in r])


def surfaces(lens):
    """(vertex z, radius with its centre at vertex + radius, index behind) as met from the guide."""
    if lens["kind"] == "ball":
        d = lens["diameterUm"]
        return [(0.0, d / 2, lens["index"]), (d, -d / 2, 1.0)], d
    t = lens["thicknessUm"]
    return [(0.0, np.inf, lens["index"]), (t, -lens["radiusUm"], 1.0)], t


def traced(waist, guide, lens, centre, distance):
    """Field of the guide's mode in the plane behind its lens, on the square grid."""
    spread = waist * np.hypot(1, distance * WAVELENGTH / (np.pi * waist**2))
    r = np.linspace(0, REACH * spread * 1.2, 500)
    field = radial_field(waist, distance, r)
    amplitude = CubicSpline(r, np.abs(field))
    angle = CubicSpline(r, np.unwrap(np.angle(field)))
    side = np.linspace(-REACH * spread, REACH * spread, RAYS)
    x, y = np.meshgrid(side, side)
    rho = np.hypot(x, y)
    inside = rho < REACH * spread
    slope = angle(rho, 1) / K
    with np.errstate(invalid="ignore", divide="ignore"):
        along = np.where(rho > 0, slope / np.where(rho > 0, rho, 1), 0)
    direction = np.stack([along * x, along * y, np.sqrt(1 - slope**2)])
    position = np.stack([x + guide[0], y + guide[1], np.zeros_like(x)])
    path = angle(rho) / K
    start_flux = amplitude(rho) ** 2 * direction[2]
    index = 1.0
    faces, thickness = surfaces(lens)
    for vertex, radius, behind in faces:
        if np.isinf(radius):
            step = (vertex - position[2]) / direction[2]
            normal = np.stack([np.zeros_like(x), np.zeros_like(x), np.ones_like(x)])
        else:
            middle = np.array([centre[0], centre[1], vertex + radius])[:, None, None]
            to = position - middle
            b = np.sum(to * direction, axis=0)
            c = np.sum(to * to, axis=0) - radius**2
            root = np.sqrt(np.maximum(b * b - c, 0))
            step = -b - np.sign(radius) * root
            normal = (position + step * direction - middle) / -radius
        position = position + step * direction
        path = path + index * step
        ratio = index / behind
        cosine = np.sum(normal * direction, axis=0)
        normal = np.where(cosine < 0, -normal, normal)
        cosine = np.abs(cosine)
        out = np.sqrt(np.maximum(1 - ratio**2 * (1 - cosine**2), 0))
        direction = ratio * direction + (out - ratio * cosine) * normal
        index = behind
    step = (thickness - position[2]) / direction[2]
    position = position + step * direction
    path = path + step
    h = side[1] - side[0]
    xx, xy = np.gradient(position[0], h, axis=1), np.gradient(position[0], h, axis=0)
    yx, yy = np.gradient(position[1], h, axis=1), np.gradient(position[1], h, axis=0)
    area = np.abs(xx * yy - xy * yx)
    level = np.sqrt(start_flux / (direction[2] * area))
    points = np.stack([position[0][inside], position[1][inside]], axis=1)
    values = np.stack([level[inside], path[inside] - path[RAYS // 2, RAYS // 2]], axis=1)
    grid = np.linspace(-HALF, HALF, GRID, endpoint=False)
    found = CloughTocher2DInterpolator(points, values)(*np.meshgrid(grid, grid))
    u = found[..., 0] * np.exp(1j * K * found[..., 1])
    return np.where(np.isnan(u), 0, u)


def propagated(u, distance):
    q = 2 * np.pi * np.fft.fftfreq(GRID, 2 * HALF / GRID)
    kz = np.sqrt(np.maximum(K**2 - q[:, None] ** 2 - q[None, :] ** 2, 0))
    return np.fft.ifft2(np.fft.fft2(u) * np.exp(1j * (kz - K) * distance))


def mode_in(row, side, guide, lens, distance):
    """Field of one guide behind its own lens; the first is carried on to the second lens."""
    if side == 2:
        return traced(row["farMfdUm"][0] / 2, guide, row["lens2"], lens, distance)
    device = row["device"]
    stretch = row["stretchUm"] - device["lengthUm"] * (1 - 1 / device["index"])
    return propagated(traced(row["nearMfdUm"] / 2, guide, row["lens1"], lens, distance), stretch)


def loss(near, far):
    overlap = np.abs(np.sum(near * far)) ** 2
    return float(-10 * np.log10(overlap / np.sum(np.abs(near) ** 2) / np.sum(np.abs(far) ** 2)))


def main():
    relays = json.loads((HERE / "real-relays.json").read_text())["relays"]
    cases = []
    for row, moves in [
        (0, [((0, 0), (0, 0), (0, 0)), ((2, 0), (1.5, -1), (0.5, 0.3)), ((20, 0), (0, 0), (None, 0))]),
        (4, [((0, 0), (0, 0), (0, 0)), ((1, 1), (2, 0.5), (0, 1.5)), ((20, 0), (0, 0), (None, 0))]),
        (2, [((0, 0), (0, 0), (0, 0)), ((0, 2), (1, -1), (0.4, 0.6)), ((20, 0), (0, 0), (None, 0))]),
    ]:
        relay = relays[row]
        front, back = relay["bothRefocusedUm"]
        for guide, lens1, lens2 in moves:
            near = mode_in(relay, 1, guide, lens1, front)
            if lens2[0] is None:
                # The second lens brings the image back onto the guide: what is left is coma.
                around, span = 0.0, 2.5 * guide[0]
                for _ in range(4):
                    tries = around + np.linspace(-span, span, 5)
                    losses = [loss(near, mode_in(relay, 2, (0, 0), (each, 0), back)) for each in tries]
                    around, span = tries[int(np.argmin(losses))], span / 2.4
                lens2 = (round(float(around), 2), 0)
            found = loss(near, mode_in(relay, 2, (0, 0), lens2, back))
            cases.append({"row": row, "guideUm": guide, "lens1Um": lens1, "lens2Um": lens2, "lossDb": round(found, 4)})
            print(cases[-1], flush=True)
    text = json.dumps({"note": "Mode overlap only, by recipes/decentred_relays.py; gaps are bothRefocusedUm of real-relays.json.", "cases": cases}, indent=1)
    (HERE / "decentred-relays.json").write_text(text + "\n")


if __name__ == "__main__":
    main()
