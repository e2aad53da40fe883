// The purchase specification without layout: a row a characteristic for tables, typed numbers for programs.

import { unitLabel } from '../../model/quantity/units'
import { type Characteristic, limitsOf, requirementText, spreadText } from '../characteristics/characteristic'
import { METHODS } from '../characteristics/methods'
import { type Cell, type TableBlock, table } from '../document/blocks'
import { plainCell } from '../document/cells'
import type { SpecificationJson } from '../formats/paperSchema'
import { type Specification, type SpecifiedItem, textOf } from './specification'

/** A number that may be missing: empty, not zero. */
export const cellOf = (value: number | null): Cell => (value === null ? '' : plainCell(value))

export const PART_COLUMNS = ['No.', 'Part', 'Kind', 'Supplier', 'Part number', 'Pieces'] as const
export const CHARACTERISTIC_COLUMNS = [
  'Characteristic',
  'Requirement',
  'Nominal',
  'From',
  'To',
  'Unit',
] as const

export const partCells = (item: SpecifiedItem, number: number): readonly Cell[] => [
  plainCell(number),
  item.name,
  item.kind,
  textOf(item.own, 'supplier'),
  textOf(item.own, 'partNumber'),
  cellOf(item.pieces),
]

export function characteristicCells(characteristic: Characteristic): readonly Cell[] {
  const { lower, upper } = limitsOf(characteristic)
  const { value, unit } = characteristic.quantity
  return [
    characteristic.label,
    requirementText(characteristic),
    plainCell(value),
    cellOf(lower),
    cellOf(upper),
    unitLabel(unit),
  ]
}

export function specificationTable({ items }: Specification): TableBlock {
  return table(
    'Purchase specification',
    [...PART_COLUMNS, ...CHARACTERISTIC_COLUMNS, 'Test method', 'Assumed distribution'],
    items.flatMap((item, i) =>
      item.characteristics.map((each): readonly Cell[] => [
        ...partCells(item, i + 1),
        ...characteristicCells(each),
        METHODS[each.method].description,
        spreadText(each),
      ]),
    ),
  )
}

export function characteristicData(characteristic: Characteristic) {
  const { id, label, sense, quantity, method } = characteristic
  const { lower, upper } = limitsOf(characteristic)
  return {
    id,
    label,
    requirement: requirementText(characteristic),
    sense,
    nominal: quantity.value,
    lower,
    upper,
    unit: quantity.unit,
    source: quantity.provenance,
    spread: spreadText(characteristic),
    testMethod: METHODS[method].description,
  }
}

export function partData(item: SpecifiedItem, number: number) {
  const { own, key, name, kind, piece, perAssembly, pieces } = item
  return {
    number,
    key,
    name,
    kind,
    supplier: textOf(own, 'supplier'),
    partNumber: textOf(own, 'partNumber'),
    piece,
    perAssembly,
    pieces,
  }
}

/** For JSON: limits in the unit of their row, null where there is none. */
export function specificationData({
  build,
  items,
}: Specification): Pick<SpecificationJson, 'build' | 'parts'> {
  return {
    build,
    parts: items.map((item, i) => ({
      ...partData(item, i + 1),
      connector: textOf(item.own, 'connector'),
      endFaceFinish: textOf(item.own, 'finish'),
      keyOrientation: textOf(item.own, 'key'),
      furtherTerms: textOf(item.own, 'note'),
      fibreLength:
        item.own.length === undefined ? null : { value: item.own.length.value, unit: item.own.length.unit },
      facts: Object.fromEntries(item.facts),
      characteristics: item.characteristics.map(characteristicData),
      openQuestions: [...item.openQuestions],
    })),
  }
}
