// What measurements say, as lines for the sheet.

import { attempted, evaluateMeasurement, type MeasurementResult, type Outcome } from '../measure/index'
import type { Measurement } from '../model/schema/measurement'
import { METHOD_NAMES } from '../model/words/measurement'
import { fixedText } from '../numerics/numberText'
import type { NumberCell } from './document/blocks'

interface EvidenceRow {
  readonly label: string
  readonly value: NumberCell
  /** Expanded, k = 2; null where none is stated. */
  readonly expanded: NumberCell | null
  readonly unit: string
}

export interface Evidence {
  readonly name: string
  readonly method: string
  readonly fileName: string
  readonly date: string
  readonly rows: readonly EvidenceRow[]
  /** Why the result is missing; empty if it exists. */
  readonly refused: string
}

const digits = (value: number, count: number): NumberCell => ({
  value,
  text: fixedText(value, count),
})

/** Decimals that show two significant digits of the expanded uncertainty, at least three. */
const decimalsOf = (expanded: number | null): number =>
  expanded === null || !(expanded > 0) ? 3 : Math.min(9, Math.max(3, 1 - Math.floor(Math.log10(expanded))))

function rowsOf(result: MeasurementResult): readonly EvidenceRow[] {
  const row = (label: string, value: number, expanded: number | null, unit: string): EvidenceRow => ({
    label,
    value: digits(value, decimalsOf(expanded)),
    expanded: expanded === null ? null : digits(expanded, decimalsOf(expanded)),
    unit,
  })
  const mfds = result.mfds.map(({ label, valueUm, expandedUm }) =>
    row(`MFD, ${label}`, valueUm, expandedUm, 'µm'),
  )
  switch (result.method) {
    case 'loopback': {
      const { facetLossDb, propagationDbPerCm } = result.result
      return [
        row('Loss per facet', facetLossDb.value, facetLossDb.plusMinus, 'dB'),
        row('Propagation loss', propagationDbPerCm.value, propagationDbPerCm.plusMinus, 'dB/cm'),
      ]
    }
    case 'repeated': {
      const { mean, expanded, count } = result.result
      return [row(`Mean of ${count} readings`, mean, expanded, result.unit === 'um' ? 'µm' : 'dB')]
    }
    case 'lot': {
      const { meanDb, meanPlusMinusDb, p95Db, assemblies } = result.lot
      return [
        row(`Mean loss of ${assemblies.length} assemblies`, meanDb, meanPlusMinusDb, 'dB'),
        row('P95 of the losses', p95Db, null, 'dB'),
      ]
    }
    case 'stress': {
      const { meanChangeDb, greatestChangeDb, assemblies, last, unit } = result.stress
      return meanChangeDb === null || greatestChangeDb === null
        ? []
        : [
            row(
              `Mean change of ${assemblies} ${assemblies === 1 ? 'assembly' : 'assemblies'} after ${last} ${unit}`,
              meanChangeDb,
              null,
              'dB',
            ),
            row('Greatest change', greatestChangeDb, null, 'dB'),
          ]
    }
    default:
      return mfds
  }
}

/** The evidence of a measurement from its outcome, wherever that was computed. */
export function evidenceOf(measurement: Measurement, outcome: Outcome<MeasurementResult>): Evidence {
  const { name, method, fileName, date } = measurement
  return {
    name,
    method: METHOD_NAMES[method],
    fileName,
    date,
    rows: outcome.ok ? rowsOf(outcome.value) : [],
    refused: outcome.ok ? '' : outcome.message,
  }
}

/** The same, computed here. */
export function measuredEvidence(measurements: readonly Measurement[]): readonly Evidence[] {
  return measurements.map((measurement) =>
    evidenceOf(
      measurement,
      attempted(() => evaluateMeasurement(measurement)),
    ),
  )
}
