// The shape that a part's mode is taken to have, where it is not a Gaussian.

import { coreValue } from '../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../model/schema/crossSection'
import type { FacetShape, ImportedShape } from '../../model/schema/modeShape'
import type { FibreEntry } from '../../model/schema/parts'
import { unpackNumbers } from '../../numerics/compactNumbers'
import type { ModeSpec, SampledField } from '../../optics/index'
import type { SolvedField } from '../crossSection/facetMode'

/** A mode with the words for what it is. */
export interface PortShape {
  readonly name: string
  readonly mode: ModeSpec
}

/** What may have a cross-section and be said to have its mode: a facet, or an end of an SSC chip. */
export interface ModeHolder {
  readonly crossSection?: CrossSectionEntry | undefined
  readonly modeShape?: FacetShape | undefined
}

/** Text that is equal for cross-sections with the same mode at a wavelength. */
function sectionKey(section: CrossSectionEntry, wavelengthUm: number): string {
  return JSON.stringify([wavelengthUm, section])
}

/** Cells that a mode is solved on for a budget. */
export const SECTION_CELLS = { x: 200, y: 150 } as const

/** The cross-section whose mode a facet or an end is said to have, with its key; null where it is said to have another. */
export function wantedSection(
  { modeShape, crossSection }: ModeHolder,
  wavelengthUm: number,
): { readonly section: CrossSectionEntry; readonly key: string } | null {
  if (modeShape?.kind !== 'cross-section' || crossSection === undefined) return null
  return { section: crossSection, key: sectionKey(crossSection, wavelengthUm) }
}

/** The shape of a facet or an end whose cross-section is solved. It lives on the page and in its workers; a project never holds it. */
interface SolvedShape {
  readonly kind: 'cross-section'
  readonly solved: SolvedField & { readonly key: string }
}

/** The facet or end with the solved mode of its cross-section, for computing. */
export function withSolvedField<H extends ModeHolder>(holder: H, solved: SolvedField, key: string): H {
  const modeShape: SolvedShape = { kind: 'cross-section', solved: { ...solved, key } }
  return { ...holder, modeShape }
}

const isSolved = (shape: FacetShape): shape is SolvedShape =>
  shape.kind === 'cross-section' && 'solved' in shape

const unpacked = new WeakMap<ImportedShape, SampledField>()

/** An imported field as samples; the same object for the same shape. */
function importedField(shape: ImportedShape, wavelengthUm: number): SampledField {
  const known = unpacked.get(shape)
  if (known?.wavelengthUm === wavelengthUm) return known
  const { nx, ny, dxUm, dyUm, x0Um, y0Um } = shape
  const re = unpackNumbers(shape.re)
  const im = shape.im === undefined ? new Float64Array(re.length) : unpackNumbers(shape.im)
  const field = { nx, ny, dxUm, dyUm, x0Um, y0Um, re, im, wavelengthUm, index: 1 }
  unpacked.set(shape, field)
  return field
}

function importedShape(shape: ImportedShape, wavelengthUm: number): PortShape {
  const { re, im, nx, ny, dxUm, dyUm, x0Um, y0Um } = shape
  const key = JSON.stringify([nx, ny, dxUm, dyUm, x0Um, y0Um, re.base64, im?.base64])
  return {
    name: `imported field ${shape.fileName}`,
    mode: { kind: 'sampled', field: importedField(shape, wavelengthUm), key },
  }
}

/** The shape of a fibre's mode, null for a Gaussian; a core shape needs a fibre that is defined by its core. */
export function fibreShape({ mode, modeShape: shape }: FibreEntry, wavelengthUm: number): PortShape | null {
  switch (shape?.kind) {
    case 'core':
      if (mode.kind !== 'core') return null
      return {
        name: 'exact mode of the core',
        mode: {
          kind: 'step index',
          coreRadiusUm: coreValue(mode.coreDiameter, 'coreDiameter') / 2,
          na: coreValue(mode.na, 'na'),
        },
      }
    case 'index profile':
      return {
        name: 'mode of the index profile',
        mode: { kind: 'index profile', radiiUm: shape.radiiUm, indices: shape.indices },
      }
    case 'imported':
      return importedShape(shape, wavelengthUm)
    default:
      return null
  }
}

/** True where a facet or an end is said to have the mode of its cross-section and does not hold it yet: a Gaussian is then used. */
export function awaitsMode({ modeShape, crossSection }: ModeHolder): boolean {
  return modeShape?.kind === 'cross-section' && crossSection !== undefined && !isSolved(modeShape)
}

/** The same of a facet or an end of an SSC chip; null too where its cross-section is missing or not solved yet. */
export function facetShape({ modeShape }: ModeHolder, wavelengthUm: number): PortShape | null {
  if (modeShape === undefined || modeShape.kind === 'gaussian') return null
  if (modeShape.kind === 'imported') return importedShape(modeShape, wavelengthUm)
  if (!isSolved(modeShape)) return null
  return { name: 'mode of the cross-section', mode: { kind: 'sampled', ...modeShape.solved } }
}
