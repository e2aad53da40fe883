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
      quantity: 'effective index of a rectangular guide',
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
    quantity: 'P^2 of a rectangular guide of low contrast',
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

export const guideChecks: readonly CheckRow[] = [...guideRows, ...squareRows]
