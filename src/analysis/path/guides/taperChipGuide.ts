// A taper chip: a guide whose mode differs at its two ends, and which may also change the pitch.

import type { Path } from '../../../model/issue'
import { indexReader } from '../vector/indexReader'
import type { ChainContext, GuideModel } from '../vector/models'
import { flatPort } from '../vector/ports'

export function taperChipGuide(context: ChainContext, converterId: string, elementId: string): GuideModel {
  const at = context.project.converters.findIndex((each) => each.id === converterId)
  const chip = context.project.converters[at]
  if (chip?.kind !== 'taper chip') throw new Error(`no taper chip ${converterId}`)
  const path: Path = ['converters', at]
  const { quantity } = context.readers
  const mfd = (field: 'inputMfdX' | 'inputMfdY' | 'outputMfdX' | 'outputMfdY', side: string) =>
    quantity(chip[field], 'mfd', `${side} of ${chip.name}`, [...path, field])
  const index = indexReader(context, chip.index, `index of ${chip.name}`, [...path, 'index'])
  return {
    entry: flatPort(mfd('inputMfdX', 'input MFD x'), mfd('inputMfdY', 'input MFD y'), index),
    exit: flatPort(mfd('outputMfdX', 'output MFD x'), mfd('outputMfdY', 'output MFD y'), index),
    lines: [
      {
        id: `${elementId}/transmission`,
        label: `Transmission of ${chip.name}`,
        kind: 'taper',
        provenance: chip.transmissionLoss.provenance,
        elementId,
        lossDb: quantity(chip.transmissionLoss, 'loss', `transmission loss of ${chip.name}`, [
          ...path,
          'transmissionLoss',
        ]),
      },
    ],
    notes: [],
  }
}
