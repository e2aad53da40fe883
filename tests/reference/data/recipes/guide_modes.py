# Full-vector modes of rectangular guides in one medium, by scipy: transverse E on Yee's staggered grid
# (Z. Zhu and T. G. Brown, Opt. Express 10 (2002) 853, from memory), right half only, sparse shift-and-invert.
# Nothing of the core is used: other grids, averages by sampling, another eigenvalue method. Three grids a guide, of which the
# finest is kept together with the extrapolation by the square of the cell size.
# Run: python3 guide_modes.py > ../guide-modes.json
import json
import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as sla


def axis(edge, reach, cells, growth):
    """Nodes from 0: `cells` cells up to the edge, growing beyond it; finer grids keep the shape."""
    size = edge / cells
    nodes = [i * size for i in range(cells + 1)]
    while nodes[-1] < reach:
        size_here = edge / cells + growth * 8 / cells * (nodes[-1] - edge)
        nodes.append(nodes[-1] + min(size_here, 0.25 * 8 / cells))
    return np.array(nodes)


def operator(xf, yf, permittivity, wavelength, kind, sub=16):
    k0 = 2 * np.pi / wavelength
    xc, yc = (xf[1:] + xf[:-1]) / 2, (yf[1:] + yf[:-1]) / 2
    nx, ny = len(xc), len(yc)

    def mean(x0, x1, y0, y1, mode):
        s = (np.arange(sub) + 0.5) / sub
        xs = (x0[:, None] + (x1 - x0)[:, None] * s).ravel()
        ys = (y0[:, None] + (y1 - y0)[:, None] * s).ravel()
        e = permittivity(xs[:, None], ys[None, :]).reshape(len(x0), sub, len(y0), sub)
        if mode == "x":
            return 1 / np.mean(1 / np.mean(e, axis=3), axis=1)
        if mode == "y":
            return 1 / np.mean(1 / np.mean(e, axis=1), axis=2)
        return e.mean(axis=(1, 3))

    first = 0 if kind == "TM" else 1
    xl = np.concatenate([[xf[0]], xc[:-1]])
    ex = mean(xf[:-1], xf[1:], yc[:-1], yc[1:], "x")
    ey = mean(xl, xc, yf[:-1], yf[1:], "y")[first:]
    ez = mean(xl, xc, yc[:-1], yc[1:], "s")
    d = sp.diags([np.ones(nx), -np.ones(nx - 1)], [0, -1]).tolil()
    if kind == "TE":
        d[0, 0] = 0
    vx = sp.diags(1 / (xc - xl)) @ d.tocsr()
    ux = sp.diags(1 / np.diff(xf)) @ sp.diags([-np.ones(nx), np.ones(nx - 1)], [0, 1])
    vy = sp.diags(1 / np.diff(yc)) @ sp.diags([-np.ones(ny - 1), np.ones(ny - 1)], [0, 1], shape=(ny - 1, ny))
    uy = sp.diags(1 / np.diff(yf)) @ sp.diags([np.ones(ny - 1), -np.ones(ny - 1)], [0, -1], shape=(ny, ny - 1))
    pick = sp.identity(nx).tocsr()[first:]
    inverse, dx, dy = sp.diags(1 / ez.ravel()), sp.diags(ex.ravel()), sp.diags(ey.ravel())
    VX, UX = sp.kron(vx, sp.identity(ny - 1)), sp.kron(ux, sp.identity(ny - 1))
    VY, UY = sp.kron(pick.T, vy), sp.kron(pick, uy)
    xx = k0**2 * dx + UX @ inverse @ VX @ dx + sp.kron(sp.identity(nx), vy @ uy)
    yy = k0**2 * dy + UY @ inverse @ VY @ dy + sp.kron(pick @ vx, sp.identity(ny)) @ sp.kron(ux @ pick.T, sp.identity(ny))
    xy = UX @ (inverse @ VY @ dy - VY)
    yx = UY @ (inverse @ VX @ dx - VX)
    cells = np.outer(np.diff(xf), np.diff(yc)) if kind == "TE" else np.outer((xc - xl)[first:], np.diff(yf))
    places = (xc, yf[1:-1]) if kind == "TE" else (xf[:-1][first:], yc)
    count = nx * (ny - 1)
    return sp.bmat([[xx, xy], [yx, yy]]).tocsc(), count, cells, places


def solve(width, height, core, clad, wavelength, kind, guess, reach, cells):
    x = axis(width / 2, width / 2 + reach, cells, 0.15)
    y = axis(height / 2, height / 2 + reach, cells, 0.15)
    y = np.concatenate([-y[:0:-1], y])
    inside = lambda x, y: np.where((abs(x) < width / 2) & (abs(y) < height / 2), core**2, clad**2)
    matrix, count, cells_area, (px, py) = operator(x, y, inside, wavelength, kind)
    k0 = 2 * np.pi / wavelength
    values, vectors = sla.eigs(matrix, k=1, sigma=(k0 * guess) ** 2)
    field = vectors[:, 0]
    leading = (field[:count] if kind == "TE" else field[count:]).reshape(len(px), len(py))
    power = abs(leading) ** 2 * cells_area
    moment = lambda at: 4 * np.sqrt((power * at).sum() / power.sum())
    return np.sqrt(values[0].real) / k0, moment((px**2)[:, None]), moment((py**2)[None, :])


CASES = [
    # width, height, core, clad, wavelength, kind, guess, reach
    (0.5, 0.22, 3.476, 1.444, 1.55, "TE", 2.45, 2.5),
    (0.5, 0.22, 3.476, 1.444, 1.55, "TM", 1.78, 3),
    (0.45, 0.22, 3.476, 1.444, 1.55, "TE", 2.36, 2.5),
    (0.18, 0.22, 3.476, 1.444, 1.55, "TE", 1.46, 9),
    (0.18, 0.22, 3.476, 1.444, 1.55, "TM", 1.484, 7),
    (1.0, 0.4, 1.996, 1.444, 1.55, "TE", 1.64, 4),
    (1.0, 0.4, 1.996, 1.444, 1.55, "TM", 1.57, 4),
]
GRIDS = (8, 16, 24)

rows = []
for width, height, core, clad, wavelength, kind, guess, reach in CASES:
    found = [solve(width, height, core, clad, wavelength, kind, guess, reach, n) for n in GRIDS]
    share = GRIDS[2] ** 2 / (GRIDS[2] ** 2 - GRIDS[1] ** 2)
    best = [b + (a - b) * (1 - share) for a, b in zip(found[1], found[2])]
    rows.append(
        dict(
            widthUm=width, heightUm=height, coreIndex=core, cladIndex=clad, wavelengthUm=wavelength, kind=kind,
            effectiveIndex=round(best[0], 6), d4SigmaXUm=round(best[1], 4), d4SigmaYUm=round(best[2], 4),
            grids=[dict(cells=n, effectiveIndex=round(f[0], 6), d4SigmaXUm=round(f[1], 4), d4SigmaYUm=round(f[2], 4)) for n, f in zip(GRIDS, found)],
        )
    )
print(json.dumps(rows, indent=1))
