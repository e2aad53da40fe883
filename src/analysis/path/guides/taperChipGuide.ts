// A taper chip: a guide whose mode differs at its two ends, and which may also change the pitch. An end may have the mode of its
// cross-section instead of a Gaussian.

import type { Path } from '../../../model/issue'
import { type ChipSide, END_FIELDS, endName } from '../../../model/parts/chipEnds'
import type { TaperChipEntry } from '../../../model/schema/parts'
import { facetShape } from '../../field/portShape'
import type { ChainContext, GuideModel, PortReaders } from '../vector/elementModels'
import { indexReader } from '../vector/indexReader'
import { flatPort } from '../vector/ports'
import { shapeNotes } from './shapeNotes'

function endPort(context: ChainContext, chip: TaperChipEntry, side: ChipSide, path: Path): PortReaders {
  const { quantity } = context.readers
  const { end, mfdX, mfdY } = END_FIELDS[side]
  const own = chip[end]
  const mfd = (field: typeof mfdX | typeof mfdY, axis: string) =>
    quantity(chip[field], 'mfd', `${side} MFD ${axis} of ${chip.name}`, [...path, field])
  const index =
    own?.index === undefined
      ? indexReader(context, chip.index, chip.name, [...path, 'index'])
      : indexReader(context, own.index, endName(chip, side), [...path, end, 'index'])
  const shape = own === undefined ? null : facetShape(own, context.wavelengthUm)
  return { ...flatPort(mfd(mfdX, 'x'), mfd(mfdY, 'y'), index), ...(shape && { shape }) }
}

export function taperChipGuide(context: ChainContext, converterId: string, elementId: string): GuideModel {
  const at = context.project.converters.findIndex((each) => each.id === converterId)
  const chip = context.project.converters[at]
  if (chip?.kind !== 'taper chip') throw new Error(`no taper chip ${converterId}`)
  const path: Path = ['converters', at]
  const { quantity } = context.readers
  const [entry, exit] = [endPort(context, chip, 'input', path), endPort(context, chip, 'output', path)]
  const notesOf = (side: ChipSide, port: PortReaders) =>
    shapeNotes(endName(chip, side), chip[END_FIELDS[side].end] ?? {}, port.shape !== undefined, elementId)
  return {
    entry,
    exit,
    lines: [
      {
        id: `${elementId}/transmission`,
        label: `Insertion loss of ${chip.name}`,
        kind: 'taper',
        provenance: chip.transmissionLoss.provenance,
        elementId,
        lossDb: quantity(chip.transmissionLoss, 'loss', `insertion loss of ${chip.name}`, [
          ...path,
          'transmissionLoss',
        ]),
      },
    ],
    notes: [...notesOf('input', entry), ...notesOf('output', exit)],
  }
}
