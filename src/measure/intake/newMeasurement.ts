// A reading that somebody has agreed to becomes a measurement of the project. What the file does not tell, and no
// result can do without, is asked for first.

import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { Measurement, ReadingColumn } from '../../model/schema/measurement'
import type { KeptColumn, Reading } from './reading'

export type FactName = 'wavelength' | 'probeMfd' | 'pixelPitch' | 'propagation' | 'referencePower'

export interface NeededFact {
  readonly name: FactName
  readonly rule: RuleName
  readonly label: string
  readonly question: string
  /** What the file itself says. */
  readonly found: Quantity | null
}

export type Facts = Readonly<Partial<Record<FactName, Quantity>>>

const quantityFrom = (valueUm: number | undefined | null): Quantity | null =>
  valueUm === undefined || valueUm === null
    ? null
    : quantityOf(Number(valueUm.toPrecision(9)), 'um', 'data sheet')

/** What must be known before the reading can be evaluated; empty where nothing can be made of it. */
export function neededFacts(reading: Reading): readonly NeededFact[] {
  if (reading.kind === 'list') return []
  if (reading.kind === 'image') {
    return [
      {
        name: 'pixelPitch',
        rule: 'pixelPitch',
        label: 'Pixel pitch at the object',
        question: 'How wide is one camera pixel at the facet?',
        found: quantityFrom(reading.pixelUm),
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
          question: 'At what wavelength was the far field taken?',
          found: quantityFrom(reading.metadata.wavelengthUm),
        },
      ]
    case 'offset':
    case 'raster':
      return [
        {
          name: 'probeMfd',
          rule: 'mfd',
          label: 'Probe MFD',
          question: 'What is the mode-field diameter of the probe that was moved?',
          found: quantityFrom(reading.metadata.probeMfdUm),
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
      question: 'All guides have one length: what do they lose on the way?',
      found: null,
    })
  }
  if (!hasLoss && absolute) {
    facts.push({
      name: 'referencePower',
      rule: 'power',
      label: 'Reference power',
      question: 'What power arrives fibre to fibre, without the chip?',
      found: null,
    })
  }
  return facts
}

export interface NewMeasurement {
  readonly id: string
  readonly fileName: string
  /** ISO date. */
  readonly date: string
}

/** The measurement, or null where the reading holds nothing to evaluate or a needed fact is missing. */
export function newMeasurement(reading: Reading, facts: Facts, origin: NewMeasurement): Measurement | null {
  const common = {
    ...origin,
    name: origin.fileName.slice(0, 200),
    notes: reading.notes.slice(0, 200).map((note) => note.slice(0, 2000)),
  }
  const scale = quantityOf(1, '1', 'estimate')
  if (reading.kind === 'list') {
    if (reading.findings.some((finding) => finding.severity === 'error')) return null
    const unit = reading.quantity === 'loss in dB' ? 'dB' : 'um'
    return { ...common, method: 'repeated', unit, values: reading.values }
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
  return [{ label: label.slice(0, 200), role, coreUnit, values }]
}
