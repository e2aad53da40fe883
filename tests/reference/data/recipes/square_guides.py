# Scalar modes of rectangular guides of low contrast in the normalised quantities of J. E. Goell, Bell Syst. Tech. J. 48 (1969)
# 2133: B = 2 b NA / lambda for height b, P^2 = (n^2 - n0^2) / NA^2. Cosine series in a large box (Galerkin), numpy.
# His curves can only be read to about two digits; these numbers are for the same guides. Two sizes of the series are compared.
# Run: python3 square_guides.py > ../square-guides.json
import json
import numpy as np


def share(aspect, goell, terms, box):
    # Lengths in heights: k NA b = pi B
    v2 = (np.pi * goell) ** 2
    def axis(size):
        half = box * size / 2 + box / 2
        k = (2 * np.arange(terms) + 1) * np.pi / (2 * half)
        s, d = k[:, None] + k[None, :], k[:, None] - k[None, :]
        a = size / 2
        inside = (np.sin(s * a) / s + np.where(d == 0, a, np.sin(d * a) / np.where(d == 0, 1, d))) / half
        return k, inside
    kx, ix = axis(aspect)
    ky, iy = axis(1)
    m = v2 * np.kron(ix, iy) - np.diag((kx[:, None] ** 2 + ky[None, :] ** 2).ravel())
    return float(np.linalg.eigvalsh(m)[-1] / v2)


rows = []
for aspect, goell in [(1, 1), (1, 1.5), (1, 2), (1, 3), (2, 1), (2, 2)]:
    coarse, fine = share(aspect, goell, 36, 4), share(aspect, goell, 54, 4)
    rows.append(dict(aspect=aspect, goell=goell, p2=round(fine, 5), lastChange=round(fine - coarse, 6)))
print(json.dumps(rows, indent=1))
