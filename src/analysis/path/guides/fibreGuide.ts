// A fibre, as the start of a chain or as a stub within it.

import type { Path } from '../../../model/issue'
import type { FibreEntry } from '../../../model/schema/parts'
import { fixedText } from '../../../numerics/numberText'
import { equivalentCore, isSingleMode, lossDb, normalisedFrequency } from '../../../optics/index'
import { fibreShape } from '../../field/portShape'
import type { ValidityNote } from '../../results/evaluation'
import type { ChainContext, CoreReader, GuideModel, PortReaders } from '../vector/elementModels'
import { indexReader } from '../vector/indexReader'
import { mfdFactors } from '../vector/mfdFactors'
import { flatPort } from '../vector/ports'
import { tabledMfd } from '../vector/tabledMfd'
import { type Reader, readerOf } from '../vector/valueReaders'
import { coreMode } from './coreMode'

/** Best-Gaussian MFD of a step-index core. A search moves one number at a time, and mostly another than the core's. */
function solvedMfd(coreDiameterUm: Reader, na: Reader, wavelength: Reader): Reader {
  let last = { diameter: Number.NaN, aperture: Number.NaN, wavelengthUm: Number.NaN, mfdUm: Number.NaN }
  return readerOf([coreDiameterUm, na, wavelength], (values) => {
    const diameter = coreDiameterUm(values)
    const aperture = na(values)
    const wavelengthUm = wavelength(values)
    if (diameter !== last.diameter || aperture !== last.aperture || wavelengthUm !== last.wavelengthUm) {
      const { bestGaussianMfdUm: mfdUm } = coreMode(diameter, aperture, wavelengthUm)
      last = { diameter, aperture, wavelengthUm, mfdUm }
    }
    return last.mfdUm
  })
}

function modeOf(
  context: ChainContext,
  at: number,
  elementId: string,
): Pick<GuideModel, 'notes'> & { mfd: Pick<PortReaders, 'mfdXUm' | 'mfdYUm'>; core: CoreReader } {
  const fibre = context.project.fibres[at]
  if (fibre === undefined) throw new Error(`no fibre at ${at}`)
  const path: Path = ['fibres', at, 'mode']
  const { quantity } = context.readers
  const { mode, name } = fibre
  if (mode.kind === 'mfd') {
    const mfdXUm = quantity(mode.mfdX, 'mfd', `MFD of ${name}`, [...path, 'mfdX'])
    const mfdYUm =
      mode.mfdY === undefined ? mfdXUm : quantity(mode.mfdY, 'mfd', `MFD y of ${name}`, [...path, 'mfdY'])
    const shape = mfdFactors(context, mode.overWavelength)
    if (shape === null) {
      return { mfd: { mfdXUm, mfdYUm }, core: assumedCore(mfdXUm, mfdYUm, context.wavelength), notes: [] }
    }
    const x = readerOf([mfdXUm, shape.x], (v) => mfdXUm(v) * shape.x(v))
    // A round mode that stays round keeps one reader, so that it is read once.
    const stays = mode.mfdY === undefined && shape.x === shape.y
    const y = stays ? x : readerOf([mfdYUm, shape.y], (v) => mfdYUm(v) * shape.y(v))
    return { mfd: { mfdXUm: x, mfdYUm: y }, core: assumedCore(x, y, context.wavelength), notes: [] }
  }
  const diameter = quantity(mode.coreDiameter, 'coreDiameter', `core diameter of ${name}`, [
    ...path,
    'coreDiameter',
  ])
  const na = quantity(mode.na, 'na', `numerical aperture of ${name}`, [...path, 'na'])
  const mfdUm =
    context.modes === 'tabled'
      ? tabledMfd(context, path, name, diameter, na)
      : solvedMfd(diameter, na, context.wavelength)
  const core: CoreReader = {
    isAssumed: false,
    at: (v) => {
      const coreRadiusUm = diameter(v) / 2
      const V = normalisedFrequency({ coreRadiusUm, na: na(v), wavelengthUm: context.wavelength(v) })
      return { V, radiusXUm: coreRadiusUm, radiusYUm: coreRadiusUm }
    },
  }
  return { mfd: { mfdXUm: mfdUm, mfdYUm: mfdUm }, core, notes: coreNotes(context, at, elementId) }
}

/** The core assumed for a fibre known by its mode-field diameters. */
function assumedCore(mfdXUm: Reader, mfdYUm: Reader, wavelength: Reader): CoreReader {
  return { isAssumed: true, at: (v) => equivalentCore(mfdXUm(v), mfdYUm(v), wavelength(v)) }
}

/** Solves the core once at its nominal values: says how Gaussian the mode is, or why there is none. */
function coreNotes(context: ChainContext, at: number, elementId: string): readonly ValidityNote[] {
  const fibre = context.project.fibres[at]
  if (fibre?.mode.kind !== 'core') return []
  const values = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const { coreDiameter, na } = fibre.mode
  const read = (q: typeof na, rule: 'na' | 'coreDiameter', field: string) =>
    context.readers.quantity(q, rule, '', ['fibres', at, 'mode', field])(values)
  try {
    const mode = coreMode(
      read(coreDiameter, 'coreDiameter', 'coreDiameter'),
      read(na, 'na', 'na'),
      context.wavelengthUm,
    )
    const notes: ValidityNote[] = [
      {
        elementId,
        message: `${fibre.name}: the exact mode overlaps its best-fit Gaussian by ${fixedText(mode.bestGaussianOverlap * 100, 2)} % (${fixedText(lossDb(mode.bestGaussianOverlap), 3)} dB)${fibre.modeShape === undefined || fibre.modeShape.kind === 'gaussian' ? '; the budget uses the Gaussian' : ''}.`,
      },
    ]
    if (!isSingleMode(mode.V)) {
      notes.push({
        elementId,
        message: `${fibre.name} is not single-mode at this wavelength: V is ${fixedText(mode.V, 3)}, single-mode below 2.405.`,
        caution: true,
      })
    }
    return notes
  } catch (error) {
    context.report({
      path: ['fibres', at, 'mode'],
      code: 'range',
      message: `${fibre.name} has no usable mode at this wavelength: ${error instanceof Error ? error.message : String(error)}`,
    })
    return []
  }
}

/** Compiles the fibre that an element points to. */
export function fibreGuide(context: ChainContext, fibreId: string, elementId: string): GuideModel {
  const at = context.project.fibres.findIndex((fibre) => fibre.id === fibreId)
  const fibre = context.project.fibres[at]
  if (fibre === undefined) throw new Error(`no fibre ${fibreId}`)
  const { mfd, core, notes } = modeOf(context, at, elementId)
  const index = indexReader(context, fibre.index, fibre.name, ['fibres', at, 'index'])
  const shape = fibreShape(fibre, context.wavelengthUm)
  const port = { ...flatPort(mfd.mfdXUm, mfd.mfdYUm, index), core, ...(shape && { shape }) }
  return { entry: port, exit: port, lines: [], notes: [...notes, ...shapeNotes(fibre, elementId)] }
}

/** Why the fibre's mode cannot have the shape it is said to have. */
function shapeNotes({ name, mode, modeShape }: FibreEntry, elementId: string): readonly ValidityNote[] {
  if (modeShape?.kind !== 'core' || mode.kind === 'core') return []
  const message = `${name}: a Gaussian is used instead of the exact mode of the core, because the fibre is given by its mode-field diameter and not by its core.`
  return [{ elementId, message }]
}
