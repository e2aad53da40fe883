// The incoming inspection plan as sections: the decision rule, then one table a part.

import { unitLabel } from '../../model/quantity/units'
import { fixedText, plainText } from '../../numerics/numberText'
import { CAUTIONS } from '../cautions'
import { requirementText } from '../characteristics/characteristic'
import { METHODS, uncertaintyUnit } from '../characteristics/methods'
import { type Block, type Cell, list, type Section, table, text, title } from '../document/blocks'
import { lossCell, plainCell } from '../document/cells'
import type { SpecifiedItem } from '../purchase/specification'
import { limitCell } from '../purchase/specificationSections'
import type { InspectedItem, InspectionPlan } from './inspectionPlan'
import type { Inspection, Sampling } from './plan'

const percent = (share: number) => `${plainText(100 * share, 3)} %`

function ruleSection(sampling: Sampling): Section {
  const { confidence, defective, allowed, size, goodRejected, guardRisk } = sampling
  const failures =
    allowed === 0 ? 'no failure' : `at most ${allowed} ${allowed === 1 ? 'failure' : 'failures'}`
  return {
    id: 'decision-rule',
    title: 'Decision rule',
    remark: '',
    blocks: [
      list([
        `Guard band: w = k·u with the standard uncertainty u of the measurement and k = ${fixedText(sampling.guardFactor, 4)}. A measured value is accepted from lower limit + w to upper limit − w (JCGM 106:2012, guarded acceptance). A part exactly at a limit is then accepted with a probability of ${percent(guardRisk)}, for normally distributed errors of measurement.`,
        `Sample: ${size} parts with ${failures}. A lot with ${percent(defective)} of its parts outside the limits is then rejected with a probability of at least ${percent(confidence)} (binomial, exact). Lots of ${size} or fewer are inspected in full.`,
        `Producer's risk: a lot with ${percent(defective / 10)} of its parts outside the limits is still rejected with a probability of ${percent(goodRejected)}.`,
        `Rejection rule: a part that fails is set aside. ${allowed === 0 ? 'One failure' : `More than ${allowed} ${allowed === 1 ? 'failure' : 'failures'}`} in the sample, in any one characteristic: the lot is rejected, or inspected in full with the supplier's agreement. If a lot is inspected in full, its good parts are kept.`,
        'A measured value inside a guard band is inconclusive: measure again by a better method, or reject. Do not keep averaging readings until the part passes.',
      ]),
      title('Cautions'),
      text(CAUTIONS),
    ],
  }
}

/** Why there are no acceptance limits. */
function openText({ neededExpanded, characteristic, limits }: Inspection): string {
  if (limits.lower === null && limits.upper === null) return 'tolerance to be agreed'
  const needed =
    neededExpanded === null
      ? ''
      : `: U ≤ ${plainText(neededExpanded, 2)} ${unitLabel(characteristic.quantity.unit)} needed`
  return `method too uncertain${needed}`
}

function sampleText({ sample, whole }: Inspection): Cell {
  if (sample === null) return 'lot size not known'
  return whole ? `all ${sample}` : plainCell(sample)
}

const short = (value: number) => ({ value, text: plainText(value, 2) })

function row(key: string, each: Inspection) {
  const { characteristic, accept, guard, excessDb } = each
  const { quantity, id, label, method } = characteristic
  return {
    mark: `${key}/${id}`,
    cells: [
      label,
      requirementText(characteristic),
      METHODS[method].name,
      short(guard),
      accept === null ? openText(each) : limitCell(accept.lower),
      accept === null ? '' : limitCell(accept.upper),
      unitLabel(quantity.unit),
      sampleText(each),
      excessDb === null ? '' : lossCell(excessDb),
    ] satisfies readonly Cell[],
  }
}

const COLUMNS = [
  'Characteristic',
  'Requirement',
  'Method',
  'Guard band',
  'Accept from',
  'Accept to',
  'Unit',
  'Sample',
  { label: 'Excess loss at the limit', unit: 'dB' },
] as const

function methodsSection({ items }: InspectionPlan): Section {
  const all = items.flatMap(({ inspections }) => inspections)
  const used = [...new Map(all.map((each) => [each.characteristic.method, each])).entries()]
  return {
    id: 'methods',
    title: 'Methods and their uncertainty',
    remark: '',
    blocks: [
      table(
        'Methods',
        ['Method', 'Description', 'U (k = 2)', 'Unit', 'Basis of U'],
        used.map(([method, { expanded, isEntered }]): readonly Cell[] => [
          METHODS[method].name,
          METHODS[method].description,
          plainCell(expanded),
          uncertaintyUnit(method),
          isEntered ? 'entered' : 'planned',
        ]),
      ),
      text(
        'Planned uncertainties are common practice, without a source: enter those of the equipment in use.',
      ),
    ],
  }
}

function itemBlocks({ item, inspections }: InspectedItem): readonly Block[] {
  return [
    text(lotText(item)),
    table(
      `Inspection of ${item.name}`,
      [...COLUMNS],
      inspections.map((each) => row(item.key, each)),
    ),
  ]
}

function lotText({ own, pieces, perAssembly }: SpecifiedItem): string {
  const lot =
    perAssembly === null
      ? 'Bought by volume: check every batch and its expiry date.'
      : pieces === null
        ? 'Lot size: not known, because no number of assemblies is given.'
        : `Lot size: ${pieces} pieces.`
  const number = own.partNumber?.trim() ?? ''
  return number === '' ? lot : `Part number ${number}. ${lot}`
}

export function inspectionSections(plan: InspectionPlan): readonly Section[] {
  const { sampling, items } = plan
  const measured = items.filter(({ inspections }) => inspections.length > 0)
  return [
    ruleSection(sampling),
    methodsSection(plan),
    ...measured.map(
      (each, i): Section => ({
        id: `inspection-${i + 1}`,
        title: `${each.number}. ${each.item.kind}: ${each.item.name}`,
        blocks: itemBlocks(each),
        remark: '',
      }),
    ),
  ]
}
