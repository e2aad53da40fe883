// Measured diameters become the mode of a fibre or a facet.

import { attempted, type MfdValue, measuredLength, type Outcome } from '../../measure/index'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { rounded } from '../../numerics/numberText'

export interface Destination {
  readonly list: 'fibres' | 'facets'
  readonly id: string
}

/** What goes where; null leaves that direction as it is. One and the same quantity for both makes a fibre circular. */
interface Diameters {
  readonly x: Quantity | null
  readonly y: Quantity | null
}

/** The entry of a part: provenance `measured`, its uncertainty in addition to any tolerance, file and date in its note. */
export function measuredEntry(mfd: MfdValue, measurement: Measurement): Outcome<Quantity> {
  const { fileName, date } = measurement
  return attempted(() => measuredLength(mfd.valueUm, mfd.expandedUm, { fileName, date, method: mfd.method }))
}

/** The measured value with the production tolerance that the part had: a measurement of one part says nothing about the lot. */
function measuredOver(before: Quantity | undefined, measured: Quantity): Quantity {
  if (before?.tolerance === undefined) return { ...measured }
  const plusMinus =
    before.tolerance.plusMinus *
    (coreValue({ ...before, value: 1 }, 'mfd') / coreValue({ ...measured, value: 1 }, 'mfd'))
  return { ...measured, tolerance: { ...before.tolerance, plusMinus: rounded(plusMinus, 12) } }
}

/** Writes into the draft. A fibre defined by its core is from then on defined by its diameters. */
export function applyDiameters(draft: Project, { list, id }: Destination, { x, y }: Diameters): void {
  if (list === 'facets') {
    const facet = byId(draft.facets, id)
    if (facet === undefined) return
    if (x !== null) facet.mfdX = measuredOver(facet.mfdX, x)
    if (y !== null) facet.mfdY = measuredOver(facet.mfdY, y)
    return
  }
  const fibre = byId(draft.fibres, id)
  if (fibre === undefined) return
  const before = fibre.mode.kind === 'mfd' ? fibre.mode : null
  const mfdX = x ?? before?.mfdX ?? y
  const mfdY = y === x && y !== null ? null : (y ?? before?.mfdY ?? null)
  if (mfdX === null) return
  fibre.mode = {
    kind: 'mfd',
    mfdX: measuredOver(before?.mfdX, mfdX),
    ...(mfdY === null ? {} : { mfdY: measuredOver(before?.mfdY ?? before?.mfdX, mfdY) }),
  }
}
