"""Bessel functions of order 0 and 1 to 17 digits with mpmath at 40 digits.

Usage: python3 make_bessel.py bessel.json
"""
import json, sys
import mpmath as mp

mp.mp.dps = 40
POINTS = ['1e-8', '0.001', '0.1', '0.5', '1', '1.6', '2.4', '3.7', '4', '4.1', '5.52', '8', '12.5', '20', '24.9', '25.1', '29.9',
          '30.1', '47', '100', '333.3', '700']
rows = []
for text in POINTS:
    x = mp.mpf(float(text))
    rows.append(dict(x=float(x), j0=float(mp.besselj(0, x)), j1=float(mp.besselj(1, x)),
                     k0Scaled=float(mp.besselk(0, x) * mp.exp(x)), k1Scaled=float(mp.besselk(1, x) * mp.exp(x)),
                     i0Scaled=float(mp.besseli(0, x) * mp.exp(-x)), i1Scaled=float(mp.besseli(1, x) * mp.exp(-x))))
json.dump(dict(method='mpmath %s, 40 digits' % mp.__version__, rows=rows), open(sys.argv[1], 'w'), indent=1)
