"""A million draws of a gap by the closed form of src/optics/joint/joint.ts as numpy writes it: the reference of yield.bench.ts.
Argument: JSON of the design (see there). Prints processor seconds with all draws at once and in blocks that fit the cache, and
the mean loss."""
import json, sys, time
import numpy as np

design = json.loads(sys.argv[1])
SAMPLES, RUNS = design["samples"], design["runs"]
WAVELENGTH = design["wavelengthUm"]
NOMINAL, HALF = np.array(design["nominal"]), np.array(design["halfWidth"])
WIDTHS = np.polynomial.chebyshev.Chebyshev.interpolate(
    lambda v: np.interp(v, design["frequencies"], design["widths"]), 11,
    [design["frequencies"][0], design["frequencies"][-1]])

def losses(draw, count):
    core, na, width_x, width_y, index, taper, gap, x, y, tilt_x, tilt_y, roll = (
        NOMINAL[:, None] + HALF[:, None] * (2 * draw.random((len(NOMINAL), count)) - 1))
    waist = WIDTHS(np.pi * core * na / WAVELENGTH) * core / 2
    k = 2 * np.pi / WAVELENGTH
    a = 0.5j * k / (gap + 0.5j * k * waist**2)
    # A round emitter, rolled, stays round; written for any: A = R diag(ax, ay) R'.
    sine, cosine = np.sin(roll), np.cos(roll)
    m11 = a * cosine**2 + a * sine**2 + 4 / width_x**2
    m22 = a * sine**2 + a * cosine**2 + 4 / width_y**2
    m12 = (a - a) * sine * cosine
    at_x, at_y = x + gap * tilt_x, y + gap * tilt_y
    bx, by = 4 / width_x**2, 4 / width_y**2
    gx, gy = bx * at_x + 0.5j * k * tilt_x, by * at_y + 0.5j * k * tilt_y
    determinant = m11 * m22 - m12**2
    form = (gx * gx * m22 + gy * gy * m11 - 2 * gx * gy * m12) / determinant
    power = (4 * a.real * np.sqrt(bx * by) / np.abs(determinant)
             * np.exp(2 * form.real - 2 * (bx * at_x**2 + by * at_y**2)))
    glass = design["fibreIndex"]
    passed = (1 - ((glass - 1) / (glass + 1))**2) * (1 - ((index - 1) / (index + 1))**2)
    return taper - 10 * np.log10(power * passed)

def run(draw, block):
    out = np.empty(SAMPLES)
    for start in range(0, SAMPLES, block):
        end = min(SAMPLES, start + block)
        out[start:end] = losses(draw, end - start)
    return out, np.quantile(out, [0.5, 0.95, 0.99])

def seconds(block):
    draw, times = np.random.default_rng(1), []
    for _ in range(RUNS):
        start = time.process_time()
        out, _ = run(draw, block)
        times.append(time.process_time() - start)
    return float(np.median(times)), float(out.mean())

whole, mean = seconds(SAMPLES)
blocks, _ = seconds(1 << 14)
print(json.dumps({"whole": whole, "blocks": blocks, "meanDb": mean}))
