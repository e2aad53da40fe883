"""The map over all offsets of two 256 x 256 complex fields by scipy.fft, padded to 512 x 512: the reference of fieldMap.bench.ts."""
import time
import numpy as np
import scipy.fft as fft

SIDE, RUNS = 256, 41
draw = np.random.default_rng(1)
field = lambda: draw.standard_normal((SIDE, SIDE)) + 1j * draw.standard_normal((SIDE, SIDE))
emitter, receiver = field(), field()
padded = (2 * SIDE, 2 * SIDE)

def offset_map():
    spectrum = fft.fft2(emitter, s=padded) * np.conj(fft.fft2(receiver, s=padded))
    correlation = fft.fftshift(fft.ifft2(spectrum))
    power = (np.abs(emitter) ** 2).sum() * (np.abs(receiver) ** 2).sum()
    return (correlation.real ** 2 + correlation.imag ** 2) / power

def median_ms(work):
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1e3 * float(np.median(times))

offset_map()
full = np.ones(padded, complex)
print(f"map {median_ms(offset_map):.3f} ms, transform {median_ms(lambda: fft.fft2(full)):.3f} ms")
