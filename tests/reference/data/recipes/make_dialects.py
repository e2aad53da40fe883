"""The same kinds of scan as make_bench.py in 36 other file dialects: delimiters, decimal marks, units of angle, position
and power, headings, lines of units, comments, quotes, line ends, encodings, ragged lines and reversed axes."""
import itertools, json, os, sys
import numpy as np
from make_bench import far_field

ANGLES = {'deg': 180 / np.pi, 'rad': 1, 'mrad': 1e3}
LENGTHS = {'um': 1, 'mm': 1e-3, 'nm': 1e3}
POWERS = {'uW': lambda p: 37.2 * p, 'W': lambda p: 2e-5 * p, 'nW': lambda p: 3e4 * p, 'mW': lambda p: p / 10,
          'dBm': lambda p: 10 * np.log10(p) - 12, 'dB': lambda p: 10 * np.log10(p), 'V': lambda p: 3.3 * p,
          'counts': lambda p: 6e4 * p}
DIALECTS = [(',', '.'), (';', ','), ('\t', '.'), ('   ', '.'), ('\t', ','), ('|', '.'), (' ', '.'), (' ; ', ','), (', ', '.')]
HEADINGS = [lambda n, u: [f'{n} [{u}]'], lambda n, u: [f'{n} ({u})'], lambda n, u: [f'{n}_{u}'], lambda n, u: [n, u]]

def write(path, comments, columns, delimiter, mark, style, seed):
    r = np.random.default_rng(seed)
    heads = [HEADINGS[style](name, unit) for name, unit, _ in columns]
    between = delimiter if delimiter.strip() or delimiter == '\t' else '  '
    lines = comments + [between.join(cells) for cells in zip(*heads)]
    rows = [['%.8g' % v for v in row] for row in zip(*(values for _, _, values in columns))]
    if seed % 5 == 0: rows.reverse()
    cells = [[c.replace('.', mark) for c in row] for row in rows]
    if seed % 7 == 3 and delimiter.strip(): cells = [[f'"{c}"' for c in row] for row in cells]
    body = [delimiter.join(row) for row in cells]
    ragged = 0
    if seed % 4 == 1:
        for at in sorted(r.integers(3, len(body) - 3, 2)): body.insert(at, body[at].split(delimiter)[0]); ragged += 1
    if seed % 3 == 0: body.insert(len(body) // 2, '')
    end = ['\n', '\r\n', '\r'][seed % 3]
    encoding, bom = [('utf-8', b''), ('utf-8', b'\xef\xbb\xbf'), ('utf-16-le', b'\xff\xfe'), ('cp1252', b'')][seed % 4]
    with open(path, 'wb') as o: o.write(bom + (end.join(lines + body) + end).encode(encoding))
    return ragged

def main(out):
    os.makedirs(out, exist_ok=True); truth = {}; r = np.random.default_rng(11)
    fibres = [(4.1, .12, 1.55), (1.6, .26, 1.55), (2.2, .2, 1.31)]
    for n, (unit, power) in enumerate(itertools.islice(itertools.cycle(itertools.product(ANGLES, POWERS)), 18)):
        a, na, lam = fibres[n % 3]; span, step = (28, .5) if a > 3 else (62, 1.)
        deg = np.round(np.arange(-span, span + .01, step), 3); off = float(np.round(r.uniform(-1.2, 1.2), 2))
        res, p = far_field(a, na, lam, deg - off); noisy = n % 2 == 1
        p = p * (1 + r.normal(0, .004, p.size)) + 2e-5 * abs(r.normal(1, .3, p.size)) if noisy else np.maximum(p, 1e-12)
        delimiter, mark = DIALECTS[n % len(DIALECTS)]; name = f'far-field-{n + 1}.txt'
        comments = [[f'# wavelength_nm: {lam * 1000:g}'], [f'% lambda = {lam} um'], [f'// Wavelength: {lam * 1000:g} nm'], ['Far-field scan 12', f'Wavelength {lam * 1000:g} nm', '']][n % 4]
        columns = [('Angle', unit, np.radians(deg) * ANGLES[unit]), ('Signal' if power in ('V', 'counts') else 'Power', power, POWERS[power](p))]
        ragged = write(f'{out}/{name}', comments, columns, delimiter, mark, n % 4, n)
        truth[name] = dict(wavelengthUm=lam, axisDeg=off, noise=noisy, petermann2MfdUm=res['petermann2MfdUm'], refused=ragged)
    for n, (unit, power) in enumerate(itertools.islice(itertools.cycle(itertools.product(LENGTHS, POWERS)), 18)):
        probe = [10.4, 6., 4.][n % 3]; d = np.round(np.arange(-10, 10.01, .25), 3)
        mfd = [float(v) for v in np.round(r.uniform(2.4, 5, 2), 2)]; centre = [float(v) for v in np.round(r.uniform(-.8, .8, 2), 2)]
        p = [np.exp(-2 * (d - c) ** 2 / ((probe / 2) ** 2 + (u / 2) ** 2)) + .002 for u, c in zip(mfd, centre)]
        delimiter, mark = DIALECTS[n % len(DIALECTS)]; name = f'offset-{n + 1}.txt'
        comments = [[f'# probe MFD {probe} um'], ['% transverse offset scan', f'% Probe MFD (um): {probe}'], [f'Probe fibre MFD: {probe} um', '']][n % 3]
        columns = [('Position', unit, d * LENGTHS[unit]), ('Px', power, POWERS[power](p[0])), ('Py', power, POWERS[power](p[1]))]
        ragged = write(f'{out}/{name}', comments, columns, delimiter, mark, n % 4, n + 1)
        truth[name] = dict(probeMfdUm=probe, mfdUm=mfd, centreUm=centre, refused=ragged)
    json.dump(truth, open(f'{out}/truth.json', 'w'), indent=1)

if __name__ == '__main__': main(sys.argv[1])
