import { mapExtents, mappedCore } from '../../../src/optics/modeSolver/cores/tabledCore'
import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'
import { modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { type SolvedMode, solveMode } from '../../../src/optics/modeSolver/solveMode'
import { rectangle } from '../../optics/modeSolver/sections'
import type { CheckRow } from '../checkRow'
import guides from '../data/guide-modes.json'
import squares from '../data/square-guides.json'
import { NUMPY, SCIPY } from '../sources'

type Guide = (typeof guides)[number]

const solved = new Map<Guide, SolvedMode>()

function modeOf(row: Guide): SolvedMode {
  const known = solved.get(row)
  if (known !== undefined) return known
  const kind = row.kind === 'TE' ? 'TE' : 'TM'
  const mode = solveMode(rectangle(row.widthUm, row.heightUm, row.coreIndex, row.cladIndex), {
    kind,
    wavelengthUm: row.wavelengthUm,
  })
  solved.set(row, mode)
  return mode
}

/** Effective index for cells of no size, from the last two grids. */
function extrapolated({ levels }: SolvedMode): number {
  const [coarse = 0, fine = 0] = levels.slice(-2).map((level) => level.effectiveIndex)
  return fine + (fine - coarse) / 3
}

const FULL_VECTOR = `full-vector finite differences and sparse eigenvalues by ${SCIPY}, tests/reference/data/recipes/guide_modes.py`

const guideRows = guides.flatMap((row): readonly CheckRow[] => {
  const id = `guide-${row.widthUm}x${row.heightUm}-${row.kind}`
  const input = `${row.widthUm} x ${row.heightUm} um, index ${row.coreIndex} in ${row.cladIndex}, quasi-${row.kind}, ${row.wavelengthUm} um`
  return [
    {
      id: `${id}-index`,
      quantity: 'effective index of a rectangular waveguide',
      source: FULL_VECTOR,
      input,
      expected: row.effectiveIndex,
      unit: '1',
      tolerance: 1e-4,
      ours: () => extrapolated(modeOf(row)),
    },
    {
      id: `${id}-width`,
      quantity: 'second-moment diameter of the mode along x',
      source: FULL_VECTOR,
      input,
      expected: row.d4SigmaXUm,
      unit: 'um',
      tolerance: Number((0.006 * row.d4SigmaXUm).toPrecision(2)),
      ours: () => modeWidths(modeOf(row)).secondMomentUm.x,
    },
  ]
})

const [CORE, CLAD, WAVELENGTH] = [1.5, 1.4985, 1.55]
const NA = Math.sqrt(CORE ** 2 - CLAD ** 2)

const squareRows = squares.map(
  ({ aspect, goell, p2 }): CheckRow => ({
    id: `rectangle-${aspect}-${goell}`,
    quantity: 'normalised propagation constant P^2 of a rectangular waveguide of low contrast',
    source: `guides of J. E. Goell, Bell Syst. Tech. J. 48 (1969) 2133 (from memory), cosine series by ${NUMPY}`,
    input: `aspect ${aspect}, normalised height ${goell}`,
    expected: p2,
    unit: '1',
    tolerance: 1e-3,
    ours: () => {
      const height = (goell * WAVELENGTH) / (2 * NA)
      const mode = solveMode(rectangle(aspect * height, height, CORE, CLAD), {
        kind: 'TE',
        wavelengthUm: WAVELENGTH,
      })
      return (extrapolated(mode) ** 2 - CLAD ** 2) / NA ** 2
    },
  }),
)

/** Samples of a table across the height of a rectangle; its walls lie half-way between two of them. */
const SAMPLES = 40

/** The same rectangle brought as a table of index steps. */
function rectangleMap(width: number, height: number): CrossSection {
  const step = height / SAMPLES
  const [nx, ny] = [width, height].map((size) => Math.round(size / step) + 8) as [number, number]
  const inside = (i: number, count: number) => Math.abs(i - (count - 1) / 2) < (count - 8) / 2
  const grid = { nx, ny, dxUm: step, dyUm: step, x0Um: -((nx - 1) / 2) * step, y0Um: 20 }
  const steps = Float64Array.from({ length: nx * ny }, (_, at) =>
    inside(at % nx, nx) && inside(Math.floor(at / nx), ny) ? CORE - CLAD : 0,
  )
  const map = { ...grid, steps }
  const core = mappedCore({ map, layer: [-1e3, 1e3], index: CORE, ...mapExtents(map) })
  return { substrateIndex: CLAD, layers: [{ thicknessUm: 60, index: CLAD }], coverIndex: CLAD, cores: [core] }
}

const mapRows = squares
  .filter(({ goell }) => goell === 2)
  .map(
    ({ aspect, goell, p2 }): CheckRow => ({
      id: `rectangle-map-${aspect}-${goell}`,
      quantity:
        'normalised propagation constant P^2 of a rectangular waveguide of low contrast, entered as an index map',
      source: `guides of J. E. Goell, Bell Syst. Tech. J. 48 (1969) 2133 (from memory), cosine series by ${NUMPY}`,
      input: `aspect ${aspect}, normalised height ${goell}, ${SAMPLES} samples over the height`,
      expected: p2,
      unit: '1',
      tolerance: 1e-3,
      ours: () => {
        const height = (goell * WAVELENGTH) / (2 * NA)
        const mode = solveMode(rectangleMap(aspect * height, height), {
          kind: 'TE',
          wavelengthUm: WAVELENGTH,
        })
        return (extrapolated(mode) ** 2 - CLAD ** 2) / NA ** 2
      },
    }),
  )

export const guideChecks: readonly CheckRow[] = [...guideRows, ...squareRows, ...mapRows]
