// A confirmed reading becomes a measurement of the project. What the file does not contain, and every result needs, is requested first.

import { type Quantity, quantityOf, ruleBreach } from '../../model/quantity/quantity'
import { RULES, type RuleName } from '../../model/quantity/quantityRules'
import type { Measurement, ReadingColumn } from '../../model/schema/measurement'
import { LIMITS, READING_LIMITS } from '../../model/words/limits'
import { rounded } from '../../numerics/numberText'
import { keptFileName, keptNotes } from './keptText'
import type { KeptColumn, Reading } from './reading'

export type FactName = 'wavelength' | 'probeMfd' | 'pixelPitch' | 'propagation' | 'referencePower'

export interface NeededFact {
  readonly name: FactName
  readonly rule: RuleName
  readonly label: string
  readonly question: string
  /** What the file itself says, where it can be. */
  readonly found: Quantity | null
  /** Why the value in the file is invalid; null where the file gives none, or a valid one. */
  readonly breach: string | null
}

export type Facts = Readonly<Partial<Record<FactName, Quantity>>>

/** A length that the file states, checked by the rule for an entered one. */
function stated(valueUm: number | undefined | null, rule: RuleName): Pick<NeededFact, 'found' | 'breach'> {
  if (valueUm === undefined || valueUm === null) return { found: null, breach: null }
  const found =
    rule === 'wavelength'
      ? quantityOf(rounded(valueUm * 1000, 9), 'nm', 'data sheet')
      : quantityOf(rounded(valueUm, 9), 'um', 'data sheet')
  const breach = ruleBreach(found.value, found.unit, RULES[rule])
  return breach === null ? { found, breach } : { found: null, breach }
}

/** What must be known before the reading can be evaluated; empty where nothing can be made of it. */
export function neededFacts(reading: Reading): readonly NeededFact[] {
  if (reading.kind === 'list' || reading.kind === 'lot') return []
  if (reading.kind === 'image') {
    return [
      {
        name: 'pixelPitch',
        rule: 'pixelPitch',
        label: 'Pixel size in the object plane',
        question: 'Pixel size referred to the object plane?',
        ...stated(reading.pixelUm, 'pixelPitch'),
      },
    ]
  }
  switch (reading.scanKind) {
    case 'far-field':
      return [
        {
          name: 'wavelength',
          rule: 'wavelength',
          label: 'Wavelength',
          question: 'Wavelength of the far-field scan?',
          ...stated(reading.metadata.wavelengthUm, 'wavelength'),
        },
      ]
    case 'offset':
    case 'raster':
      return [
        {
          name: 'probeMfd',
          rule: 'mfd',
          label: 'Probe MFD',
          question: 'MFD of the scanned probe?',
          ...stated(reading.metadata.probeMfdUm, 'mfd'),
        },
      ]
    case 'loopback':
      return loopbackFacts(reading.columns)
    default:
      return []
  }
}

function loopbackFacts(columns: Extract<Reading, { kind: 'table' }>['columns']): readonly NeededFact[] {
  const length = columns.find((column) => column.role === 'length')
  const hasLoss = columns.some((column) => column.role === 'loss')
  const absolute = columns.some((column) => column.role === 'power' && column.coreUnit === 'uW')
  const facts: NeededFact[] = []
  if (length !== undefined && length.low === length.high) {
    facts.push({
      name: 'propagation',
      rule: 'propagationLoss',
      label: 'Propagation loss',
      question: 'All waveguides have the same length: enter the propagation loss.',
      found: null,
      breach: null,
    })
  }
  if (!hasLoss && absolute) {
    facts.push({
      name: 'referencePower',
      rule: 'power',
      label: 'Reference power',
      question: 'Power measured fibre to fibre, without the chip?',
      found: null,
      breach: null,
    })
  }
  return facts
}

/** Standard uncertainty of an insertion loss with reconnection: common practice, no source. */
const USUAL_LOSS_UNCERTAINTY_DB = 0.1

interface NewMeasurement {
  readonly id: string
  readonly fileName: string
  /** ISO date. */
  readonly date: string
}

/** The measurement, or null where the reading holds nothing to evaluate or a needed fact is missing. */
export function newMeasurement(reading: Reading, facts: Facts, origin: NewMeasurement): Measurement | null {
  const common = {
    ...origin,
    fileName: keptFileName(origin.fileName),
    name: keptFileName(origin.fileName).slice(0, LIMITS.nameCharacters),
    notes: keptNotes(reading.notes),
  }
  const scale = quantityOf(1, '1', 'estimate')
  if (reading.kind === 'list') {
    if (reading.findings.some((finding) => finding.severity === 'error')) return null
    const unit = reading.quantity === 'loss in dB' ? 'dB' : 'um'
    return { ...common, method: 'repeated', unit, values: reading.values }
  }
  if (reading.kind === 'lot') {
    if (reading.findings.some((finding) => finding.severity === 'error')) return null
    const lossUncertainty = quantityOf(USUAL_LOSS_UNCERTAINTY_DB, 'dB', 'estimate')
    return reading.stress === null
      ? { ...common, method: 'lot', rows: reading.kept, lossUncertainty }
      : { ...common, method: 'stress', rows: { ...reading.kept, ...reading.stress }, lossUncertainty }
  }
  if (reading.kind === 'image') {
    const { width, height, binning, fullScale, pixels } = reading.kept
    if (facts.pixelPitch === undefined) return null
    return {
      ...common,
      method: 'image',
      width,
      height,
      ...(fullScale === null ? {} : { fullScale }),
      pixelPitch: facts.pixelPitch,
      binning,
      pixels,
    }
  }
  if (reading.kept.length === 0) return null
  const columns = reading.kept.flatMap(projectColumn)
  const reference = facts.referencePower === undefined ? {} : { referencePower: facts.referencePower }
  switch (reading.scanKind) {
    case 'far-field':
      if (facts.wavelength === undefined) return null
      return {
        ...common,
        method: 'far-field',
        columns,
        wavelength: facts.wavelength,
        angleScale: scale,
        detectorExponent: scale,
      }
    case 'offset':
      if (facts.probeMfd === undefined) return null
      return {
        ...common,
        method: 'offset',
        columns,
        probeMfd: facts.probeMfd,
        stageScale: scale,
        detectorExponent: scale,
      }
    case 'raster':
      if (facts.probeMfd === undefined) return null
      return { ...common, method: 'raster', columns, probeMfd: facts.probeMfd, stageScale: scale }
    case 'loopback':
      return {
        ...common,
        method: 'loopback',
        columns,
        ...(facts.propagation === undefined ? {} : { propagation: facts.propagation }),
        ...reference,
      }
    default:
      return null
  }
}

function projectColumn({ label, role, coreUnit, values }: KeptColumn): readonly ReadingColumn[] {
  if (role === 'other' || coreUnit === 'none') return []
  return [{ label: label.slice(0, READING_LIMITS.labelCharacters), role, coreUnit, values }]
}
