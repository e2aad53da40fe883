"""Small TIFF files of one and the same image, written from the specification (TIFF Revision 6.0, Aldus 1992) with
numpy, zlib and an LZW and a PackBits writer of their own: every byte order, compression, predictor and layout that a
camera program may choose. expected.json has the pixels."""
import json, struct, sys, zlib
import numpy as np

def lzw(data):
    out, acc, bits = bytearray(), 0, 0
    def put(code, width):
        nonlocal acc, bits
        acc = (acc << width) | code; bits += width
        while bits >= 8:
            out.append((acc >> (bits - 8)) & 255); bits -= 8
        acc &= (1 << bits) - 1
    fresh = lambda: {bytes([i]): i for i in range(256)}
    table, free, width, known = fresh(), 258, 9, b''
    put(256, width)
    for byte in data:
        longer = known + bytes([byte])
        if longer in table:
            known = longer; continue
        put(table[known], width); table[longer] = free; free += 1
        if free in (512, 1024, 2048): width += 1
        elif free == 4095:
            put(256, width); table, free, width = fresh(), 258, 9
        known = bytes([byte])
    put(table[known], width); free += 1
    if free in (512, 1024, 2048): width += 1
    put(257, width)
    if bits: out.append((acc << (8 - bits)) & 255)
    return bytes(out)

def packbits(data):
    out, i = bytearray(), 0
    while i < len(data):
        j = i
        while j < len(data) and data[j] == data[i] and j - i < 128: j += 1
        if j - i >= 2: out += bytes([(257 - (j - i)) & 255, data[i]]); i = j; continue
        k = i + 1
        while k < len(data) and k - i < 128 and not (k + 1 < len(data) and data[k] == data[k + 1]): k += 1
        out += bytes([k - i - 1]) + data[i:k]; i = k
    return bytes(out) + b'\x80'  # a no-operation, which a reader must skip

def write(path, image, order, bits, compression, predictor=1, photometric=1, rows=None, tile=None, extra=()):
    height, width = image.shape
    kind = {8: 'u1', 16: 'u2', 32: 'f4'}[bits]
    a = image.astype(order + kind)
    if photometric == 0: a = ((2 ** bits - 1) - image.astype('i8')).astype(a.dtype)
    rows = rows or height
    if tile:
        parts = []
        for y in range(0, height, tile):
            for x in range(0, width, tile):
                part = np.zeros((tile, tile), a.dtype); piece = a[y:y + tile, x:x + tile]
                part[:piece.shape[0], :piece.shape[1]] = piece; parts.append(part)
    else: parts = [a[y:y + rows] for y in range(0, height, rows)]
    chunks = []
    for part in parts:
        if predictor == 2:
            d = part.astype('i8'); d[:, 1:] -= part[:, :-1].astype('i8'); part = (d % 2 ** bits).astype(a.dtype)
        raw = part.tobytes()
        if compression == 5: raw = lzw(raw)
        elif compression in (8, 32946): raw = zlib.compress(raw)
        elif compression == 32773: raw = b''.join(packbits(row.tobytes()) for row in part)
        chunks.append(raw)
    data = b''.join(chunks); data += b'\0' * (len(data) % 2)
    offsets = [8 + sum(map(len, chunks[:i])) for i in range(len(chunks))]
    SHORT, LONG = 3, 4
    tags = [(256, LONG, [width]), (257, LONG, [height]), (258, SHORT, [bits]), (259, SHORT, [compression]),
            (262, SHORT, [photometric]), (277, SHORT, [1]), *extra]
    if tile: tags += [(322, SHORT, [tile]), (323, SHORT, [tile]), (324, LONG, offsets), (325, LONG, list(map(len, chunks)))]
    else: tags += [(273, LONG, offsets), (278, LONG, [rows]), (279, SHORT, list(map(len, chunks)))]
    if predictor != 1: tags.append((317, SHORT, [predictor]))
    if bits == 32: tags.append((339, SHORT, [3]))
    at = 8 + len(data); body = struct.pack(order + 'H', len(tags)); spill = b''
    for tag, form, values in sorted(tags):
        raw = b''.join(struct.pack(order + ('H' if form == SHORT else 'I'), v) for v in values)
        if len(raw) > 4:
            where = at + 2 + 12 * len(tags) + 4 + len(spill); spill += raw + b'\0' * (len(raw) % 2)
            raw = struct.pack(order + 'I', where)
        body += struct.pack(order + 'HHI', tag, form, len(values)) + raw.ljust(4, b'\0')
    magic = b'II' if order == '<' else b'MM'
    with open(path, 'wb') as o:
        o.write(magic + struct.pack(order + 'HI', 42, at) + data + body + struct.pack(order + 'I', 0) + spill)

def main(out):
    y, x = np.mgrid[0:18, 0:23]
    image = np.round(200 * np.exp(-((x - 11) / 6) ** 2 - ((y - 8) / 4) ** 2)) + (x * y) % 3
    image[12:] = 2  # long runs
    json.dump(dict(width=23, height=18, pixels=image.astype(int).ravel().tolist()), open(f'{out}/expected.json', 'w'))
    for order, name in (('<', 'little'), ('>', 'big')):
        write(f'{out}/plain-16-{name}.tif', image, order, 16, 1, rows=5)
        write(f'{out}/lzw-16-{name}.tif', image, order, 16, 5, predictor=2, rows=7)
        write(f'{out}/deflate-16-{name}.tif', image, order, 16, 8, predictor=2)
        write(f'{out}/packbits-16-{name}.tif', image, order, 16, 32773, rows=4)
        write(f'{out}/packbits-8-{name}.tif', image, order, 8, 32773)
    write(f'{out}/lzw-8.tif', image, '<', 8, 5, rows=1)
    write(f'{out}/deflate-old-8.tif', image, '>', 8, 32946)
    write(f'{out}/packbits-tiles-8.tif', image, '<', 8, 32773, tile=16)
    write(f'{out}/packbits-float.tif', image, '>', 32, 32773, rows=6)
    write(f'{out}/white-is-zero-8.tif', image, '<', 8, 32773, photometric=0)
    write(f'{out}/refused-jpeg.tif', image, '<', 8, 7)
    write(f'{out}/refused-signed.tif', image, '<', 16, 1, extra=[(339, 3, [2])])
    write(f'{out}/refused-tiles-with-predictor.tif', image, '<', 8, 8, predictor=2, tile=16)

if __name__ == '__main__': main(sys.argv[1])
