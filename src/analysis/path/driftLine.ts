// The drift over service as a line of the budget: its mean, never a gain, with the interval of one further channel as its spread.

import type { Path } from '../../model/issue'
import { quantityOf } from '../../model/quantity/quantity'
import { exposureText, LAW_TEXTS } from '../../model/words/lifetime'
import { normalQuantile } from '../../numerics/normal'
import { fixedText } from '../../numerics/numberText'
import type { Outcome } from '../../numerics/outcome'
import type { ServiceDrift } from '../lifetime/serviceDrift'
import type { ValidityNote } from '../results/evaluation'
import type { LineModel } from './vector/elementModels'
import { type ReaderTable, UNCERTAINTY } from './vector/valueReaders'

/** The design as a whole is what drifts. */
const WHOLE = 'design'
/** Standard deviations in the half width of a 95 % interval of a normal distribution. */
const COVERAGE = normalQuantile(0.975)

export function driftLine(readers: ReaderTable, drift: ServiceDrift, path: Path): LineModel {
  const { meanDb, onePlusMinusDb, exposure, test, fit } = drift
  const quantity = quantityOf(meanDb, 'dB', 'measured', {
    plusMinus: onePlusMinusDb,
    distribution: 'normal',
    coverage: COVERAGE,
    share: 'channel',
  })
  // What a test leaves open: no order can tighten it.
  const own = readers.quantity(quantity, 'lossDrift', 'drift over service life', [...path, UNCERTAINTY])
  return {
    id: 'drift',
    label: 'Drift over service life',
    kind: 'drift',
    provenance: 'measured',
    elementId: WHOLE,
    note: `${drift.testName}, ${LAW_TEXTS[fit.law].name}, end of service life (equivalent to ${exposureText(exposure, test.unit)} of testing): ${fixedText(meanDb, 2)} ± ${fixedText(onePlusMinusDb, 2)} dB for one channel (95 %).`,
    lossDb: (v) => Math.max(0, own(v)),
  }
}

/** Cautions of a drift, or why there is none. */
export function driftNotes(drift: Outcome<ServiceDrift> | null): readonly ValidityNote[] {
  if (drift === null) return []
  const said = drift.ok ? drift.value.warnings : [`Not computed: ${drift.message}`]
  return said.map((message) => ({
    elementId: WHOLE,
    message: `Drift over service life. ${message}`,
    caution: true,
  }))
}
