// An index map as a table: a Gaussian step of 0.05 in oxide, 3 µm wide at 1/e about a height of 4 µm; positions in nm, which the
// table does not say.

export const INDEX_MAP_ROWS: readonly string[] = [
  'x;y;index',
  ...Array.from({ length: 33 * 33 }, (_, i) => {
    const [x, y] = [-4000 + 250 * (i % 33), 250 * Math.floor(i / 33)]
    const share = Math.exp(-(x * x + (y - 4000) ** 2) / 1500 ** 2)
    return `${x};${y};${(1.444 + 0.05 * share).toFixed(6)}`
  }),
]
