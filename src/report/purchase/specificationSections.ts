// The purchase specification as sections: a summary, then one sheet per part, from which a supplier can quote.

import type { Evaluation } from '../../analysis/results/evaluation'
import { jointDrawings } from '../../figures/drawing/jointDrawings'
import { toleranceText, valueText } from '../../model/quantity/quantityWords'
import { unitLabel } from '../../model/quantity/units'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { ORDER_TEXT_LABELS } from '../../model/words/purchase'
import { fixedText } from '../../numerics/numberText'
import { type Characteristic, limitsOf, requirementText, spreadText } from '../characteristics/characteristic'
import { METHODS, type MethodId } from '../characteristics/methods'
import { type Block, type Cell, list, type Section, table, text, title } from '../document/blocks'
import { plainCell } from '../document/cells'
import { figureBlock } from '../document/figureBlock'
import { assembliesWithSpares, type Build } from './buildQuantity'
import { orderTextLabel, type Specification, type SpecifiedItem, textOf, wantedTexts } from './specification'

const percent = (share: number) => `${fixedText(100 * share, 1)} %`.replace(/\.0 %$/, ' %')

/** How the number of pieces comes about. */
function buildText(build: Build | null): string {
  if (build === null) return 'Number of assemblies: not stated. Quantities are for one assembly.'
  const { wanted, begun, yieldLoss, spares, enough, enoughWithSpares } = build
  return [
    `${wanted} good assemblies are required. With an expected yield loss of ${percent(yieldLoss)}, ${begun} are started; ${percent(spares)} spares are added and every quantity is rounded up.`,
    ...(yieldLoss === 0
      ? []
      : [
          `Probability of at least ${wanted} good assemblies from ${begun} started: ${percent(enough)}; from the ${assembliesWithSpares(build)} that ${percent(spares)} spares complete: ${percent(enoughWithSpares)} (binomial, assemblies failing independently).`,
        ]),
  ].join(' ')
}

function piecesText({ perAssembly, piece, pieces }: SpecifiedItem): string {
  if (perAssembly === null) return 'as needed; smallest pack'
  const each = `${perAssembly} per assembly (${piece})`
  return pieces === null ? each : `${pieces}; ${each}`
}

const orOpen = (content: string) => (content === '' ? 'not stated' : content)

export function specificationSummary({ build, items }: Specification, candidate: Candidate): Section {
  return {
    id: 'parts-to-order',
    title: 'Parts to order',
    remark: '',
    blocks: [
      text(`Design: ${candidate.name}. ${buildText(build)}`),
      table(
        'Parts',
        ['No.', 'Part', 'Kind', 'Supplier', 'Part number', 'Per assembly', 'Pieces'],
        items.map((item, i): readonly Cell[] => [
          String(i + 1),
          item.name,
          item.kind,
          orOpen(textOf(item.own, 'supplier')),
          orOpen(textOf(item.own, 'partNumber')),
          item.perAssembly === null ? 'as needed' : plainCell(item.perAssembly),
          item.perAssembly === null ? '' : item.pieces === null ? 'not stated' : plainCell(item.pieces),
        ]),
      ),
    ],
  }
}

/** Methods whose result is a mode-field diameter. */
const MODE_METHODS: readonly MethodId[] = ['farField', 'nearField', 'offsetScan']

function conditionLines({ requirements }: Project, item: SpecifiedItem): readonly string[] {
  const { wavelength, wavelengthMin, wavelengthMax, temperatureMin, temperatureMax } = requirements
  const band =
    wavelengthMin === undefined || wavelengthMax === undefined
      ? ''
      : `, used from ${valueText(wavelengthMin)} to ${valueText(wavelengthMax)}`
  return [
    ...(item.characteristics.some(({ method }) => MODE_METHODS.includes(method))
      ? [
          `MFD and spot size: full width at 1/e² of the peak intensity of the best-fit Gaussian, at ${valueText(wavelength)}. A value by another definition (Petermann II, full width at half maximum) must be identified as such, with its conversion.`,
        ]
      : []),
    `Optical values are at ${valueText(wavelength)}${band}. Optical values and dimensions refer to 20 °C (ISO 1). Operating temperature: ${valueText(temperatureMin)} to ${valueText(temperatureMax)}.`,
    ...(item.jointIds.length > 0 && item.perAssembly !== null
      ? [
          'Axes: x lies along the chip surface, y normal to it, z along the optical axis towards the chip. An end-face angle is measured from the plane normal to the axis.',
        ]
      : []),
  ]
}

function acceptanceLines({ has, perAssembly }: SpecifiedItem): readonly string[] {
  return [
    'A part is accepted when every measured value lies within its limits, reduced by the guard band of the incoming inspection plan.',
    `The supplier delivers the measured values of every ${perAssembly === null ? 'batch' : 'piece or lot'}, the method used and its expanded uncertainty (k = 2).`,
    ...(has.endFace
      ? [
          'End faces: no scratch, dig, chip or residue within twice the MFD about the core (IEC 61300-3-35 for fibre ends); protected from contact and dust during delivery.',
        ]
      : []),
    'Changes of material, process or manufacturing site must be announced before delivery.',
  ]
}

function orderRows(project: Project, item: SpecifiedItem): readonly (readonly Cell[])[] {
  const { own, has, facts } = item
  const { channels, pitch } = project.requirements
  return [
    ['Part', item.name],
    ['Quantity', piecesText(item)],
    ...wantedTexts(item).map((field) => [orderTextLabel(item, field), orOpen(textOf(own, field))]),
    ...(has.cable
      ? [
          [
            'Fibre length',
            own.length === undefined
              ? 'not stated'
              : `${valueText(own.length)} ${toleranceText(own.length)}`.trim(),
          ],
        ]
      : []),
    ...facts.map(([label, content]) => [label, content]),
    ...(channels === 1 || item.perAssembly === null
      ? []
      : [['Channels', `${channels} at a pitch of ${valueText(pitch)}`]]),
    ...(textOf(own, 'note') === '' ? [] : [[ORDER_TEXT_LABELS.note, textOf(own, 'note')]]),
  ]
}

export const limitCell = (limit: number | null): Cell => (limit === null ? '' : plainCell(limit))

function characteristicRow(key: string, each: Characteristic) {
  const { lower, upper } = limitsOf(each)
  return {
    mark: `${key}/${each.id}`,
    cells: [
      each.label,
      requirementText(each),
      limitCell(lower),
      limitCell(upper),
      unitLabel(each.quantity.unit),
      METHODS[each.method].description,
      spreadText(each),
    ],
  }
}

export function itemSection(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
  item: SpecifiedItem,
  number: number,
): Section {
  const drawings = jointDrawings(project, candidate, evaluation)
  const wanted = new Set(item.jointIds.map((id) => `section-${id}`))
  const blocks: readonly Block[] = [
    table('Order', ['Item', 'Specification'], orderRows(project, item)),
    ...(item.characteristics.length === 0
      ? []
      : [
          table(
            'Characteristics',
            ['Characteristic', 'Requirement', 'From', 'To', 'Unit', 'Test method', 'Assumed distribution'],
            item.characteristics.map((each) => characteristicRow(item.key, each)),
          ),
        ]),
    title('Definitions and conditions'),
    list(conditionLines(project, item)),
    title('Acceptance criteria'),
    list(acceptanceLines(item)),
    ...(item.openQuestions.length === 0 ? [] : [title('Open questions'), list(item.openQuestions)]),
    ...(item.perAssembly === null ? [] : drawings.filter(({ id }) => wanted.has(id))).map((each) =>
      figureBlock(each),
    ),
  ]
  return { id: `part-${number}`, title: `${number}. ${item.kind}: ${item.name}`, blocks, remark: '' }
}
