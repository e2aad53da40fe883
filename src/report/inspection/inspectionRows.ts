// The inspection plan without layout: a row a characteristic for tables, typed numbers for programs.

import { METHODS, uncertaintyUnit } from '../characteristics/methods'
import { type Cell, type TableBlock, table } from '../document/blocks'
import { plainCell } from '../document/cells'
import type { InspectionJson } from '../formats/paperSchema'
import {
  CHARACTERISTIC_COLUMNS,
  cellOf,
  characteristicCells,
  characteristicData,
  PART_COLUMNS,
  partCells,
  partData,
} from '../purchase/specificationRows'
import type { InspectionPlan } from './inspectionPlan'
import type { Sampling } from './plan'

/** What becomes of the lot, for one row. */
export function rejectRule({ allowed }: Sampling, whole: boolean): string {
  if (whole) return 'set aside every part that fails'
  return `reject the lot at ${allowed + 1} ${allowed === 0 ? 'failure' : 'failures'} or more`
}

export function inspectionTable({ sampling, items }: InspectionPlan): TableBlock {
  return table(
    'Incoming inspection plan',
    [
      ...PART_COLUMNS,
      ...CHARACTERISTIC_COLUMNS,
      'Method',
      'U (k = 2)',
      'Unit of U',
      'Basis of U',
      'Guard band',
      'Accept from',
      'Accept to',
      'Sample',
      'Failures allowed',
      'Rejection rule',
      { label: 'Excess loss at the limit', unit: 'dB' },
    ],
    items.flatMap(({ item, number, inspections }) =>
      inspections.map((each): readonly Cell[] => [
        ...partCells(item, number),
        ...characteristicCells(each.characteristic),
        METHODS[each.characteristic.method].description,
        plainCell(each.expanded),
        uncertaintyUnit(each.characteristic.method),
        each.isEntered ? 'entered' : 'planned',
        plainCell(each.guard),
        cellOf(each.accept?.lower ?? null),
        cellOf(each.accept?.upper ?? null),
        cellOf(each.sample),
        plainCell(each.whole ? 0 : sampling.allowed),
        rejectRule(sampling, each.whole),
        cellOf(each.excessDb),
      ]),
    ),
  )
}

/** For JSON: every limit in the unit of its row, null where there is none. */
export function inspectionData({
  sampling,
  items,
}: InspectionPlan): Pick<InspectionJson, 'sampling' | 'parts'> {
  return {
    sampling,
    parts: items.map(({ item, number, inspections }) => ({
      ...partData(item, number),
      inspections: inspections.map((each) => ({
        ...characteristicData(each.characteristic),
        expandedUncertainty: each.expanded,
        expandedUncertaintyUnit: uncertaintyUnit(each.characteristic.method),
        uncertaintyIsEntered: each.isEntered,
        guardBand: each.guard,
        acceptFrom: each.accept?.lower ?? null,
        acceptTo: each.accept?.upper ?? null,
        sample: each.sample,
        rejectRule: rejectRule(sampling, each.whole),
        excessLossDb: each.excessDb,
      })),
    })),
  }
}
