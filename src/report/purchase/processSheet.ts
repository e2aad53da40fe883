// The process sheet: splicing, alignment and bonding of a design, step by step, with the limits that its budget assumes.

import { clearanceFindings, contactText } from '../../analysis/clearance/findings'
import type { Evaluation } from '../../analysis/results/evaluation'
import { alignedMembers, alignOrder, MEMBER_NAMES } from '../../model/designs/alignOrder'
import { jointWords } from '../../model/designs/jointNames'
import type { Quantity } from '../../model/quantity/quantity'
import { toleranceText, valueText } from '../../model/quantity/quantityWords'
import type { Candidate, ElementOf, GapElement, LensPose, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { CAUTIONS } from '../cautions'
import { requirementText } from '../characteristics/characteristic'
import { type Block, type Cell, list, type Section, type TableRow, table, text } from '../document/blocks'
import { lossCell } from '../document/cells'
import { pointingsOf } from '../pointings'
import { provisionalLabel } from '../provisional'
import { excessAtLimits } from './excessAtLimits'
import { jointDb, jointWorstCaseDb } from './jointWorstCase'
import { lossLimitText } from './lossLimits'
import { sequenceSection } from './sequenceSection'

interface Step {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
  readonly excess: ReadonlyMap<Quantity, number>
}

const COLUMNS = [
  'Parameter',
  'Set value and limits',
  'Set by',
  { label: 'Excess loss at the limit', unit: 'dB' },
] as const

type Row = readonly [label: string, quantity: Quantity | undefined, by: string]

function rows({ excess }: Step, entries: readonly Row[]): readonly TableRow[] {
  return entries.flatMap(([label, quantity, by]): readonly TableRow[] => {
    if (quantity === undefined) return []
    const added = excess.get(quantity)
    const cells: readonly Cell[] = [
      label,
      requirementText({ quantity, sense: 'within' }),
      by,
      added === undefined ? '' : lossCell(added),
    ]
    return [{ cells }]
  })
}

const AXES = [
  ['gap', 'Gap'],
  ['offsetX', 'Lateral offset x'],
  ['offsetY', 'Lateral offset y'],
  ['tiltX', 'Tilt x'],
  ['tiltY', 'Tilt y'],
  ['roll', 'Roll'],
] as const

const setBy = (aligned: readonly string[] | undefined, axis: string) =>
  aligned?.includes(axis) ? 'active alignment; limits are the residual' : 'passive placement'

const SHIFT = 'not set; measured as the change in power'

function shiftRows({ bondShift }: GapElement | RelayElement, word: string): readonly Row[] {
  if (bondShift === undefined) return []
  return [
    [`${word} x`, bondShift.x, SHIFT],
    [`${word} y`, bondShift.y, SHIFT],
    [`${word} z`, bondShift.z, SHIFT],
  ]
}

function jointText({ candidate, evaluation, project }: Step, element: GapElement | RelayElement): string {
  const medium = project.media.find(({ id }) => id === element.mediumId)?.name ?? 'not stated'
  const pointing = pointingsOf(project, candidate.id).get(element.id)
  return [
    `Medium: ${medium}. Nominal joint loss: ${lossCell(jointDb(evaluation, element.id)).text} dB.`,
    ...(pointing === undefined ? [] : [`Pointing of the fibre side: ${pointing}.`]),
    `End faces: fibre side ${requirementOf(element.nearFaceAngle)}, chip side ${requirementOf(element.farFaceAngle)}${isStraight(element.nearFaceAngle) && isStraight(element.farFaceAngle) ? '' : `, angled in the ${element.facePlane}–z plane`}.`,
  ].join(' ')
}

/** Whether any axis of the joint is aligned on power. */
const isActive = (element: GapElement | RelayElement): boolean =>
  element.kind === 'relay' ? alignedMembers(element).length > 0 : (element.aligned ?? []).length > 0

/** An angle of 0 without a tolerance has no plane. */
const isStraight = ({ value, tolerance }: Quantity): boolean =>
  value === 0 && (tolerance === undefined || tolerance.plusMinus === 0)

const requirementOf = (quantity: Quantity) => `${valueText(quantity)} ${toleranceText(quantity)}`.trim()

/** Where glass meets chip, for whoever drives the stage. */
function contactBlocks({ project, candidate, evaluation }: Step, element: GapElement): readonly Block[] {
  const found = clearanceFindings(project, candidate, evaluation).find(
    ({ elementId }) => elementId === element.id,
  )
  if (found?.contact == null) return []
  const { contact, reached } = found
  if (contact.gapUm <= 0 && reached) return []
  const limit = `Never drive the gap below ${fixedText(Math.max(0, contact.gapUm), 1)} µm: ${contactText(contact)}.`
  return [text(reached ? limit : `The entered gap is not reachable. ${limit}`)]
}

/** When a bonded joint is rejected: above what its own limits can add up to. */
function rejection({ project, candidate, evaluation }: Step, elementId: string): string {
  const worstDb = jointWorstCaseDb(project, candidate, evaluation, elementId)
  const limit =
    worstDb === null
      ? 'the worst case of the limits above'
      : `${lossCell(worstDb).text} dB, the worst case of the limits above together`
  return `Reject the joint if its loss after cure exceeds ${limit}; do not debond and rebond without inspecting both faces again.`
}

function gapBlocks(step: Step, element: GapElement): readonly Block[] {
  const medium = step.project.media.find(({ id }) => id === element.mediumId)
  const bonded = medium?.state === 'adhesive'
  const active = isActive(element)
  const when = active ? 'at best alignment' : 'after placement'
  const axes = AXES.map(([axis, label]): Row => [label, element[axis], setBy(element.aligned, axis)])
  return [
    text(jointText(step, element)),
    ...contactBlocks(step, element),
    table(active ? 'Alignment' : 'Placement', [...COLUMNS], rows(step, axes)),
    ...(element.bondShift === undefined
      ? []
      : [
          table(
            bonded ? 'Bonding' : 'Holding',
            [...COLUMNS],
            rows(step, shiftRows(element, bonded ? 'Cure shift' : 'Holder drift')),
          ),
        ]),
    list(
      bonded
        ? [
            `Before dispensing: inspect and clean both end faces; record the power ${when}, without adhesive.`,
            `${active ? 'Realign' : 'Check the power'} with adhesive in the gap; no bubble in the optical path. Record the power before and after cure.`,
            'Cure as specified by the adhesive supplier (wavelength, dose, temperature); keep the light source at the power agreed with the responsible safety officer.',
            rejection(step, element.id),
          ]
        : [
            'Inspect and clean both end faces; bring them together under observation, never into contact.',
            `Record the power ${when} and after fixing.`,
          ],
    ),
  ]
}

const LENS_AXES = [
  ['offsetX', 'decentre x'],
  ['offsetY', 'decentre y'],
  ['offsetZ', 'axial shift z'],
  ['tiltX', 'tilt x'],
  ['tiltY', 'tilt y'],
] as const

const lensRows = (name: string, pose: LensPose): readonly Row[] =>
  LENS_AXES.map(([axis, label]) => [`${name}, ${label}`, pose[axis], setBy(pose.aligned, axis)])

/** When the component of the collimated section goes in, and which way. */
function deviceSteps({ project }: Step, { device }: RelayElement): readonly string[] {
  if (device === undefined) return []
  const { direction } = project.requirements
  const way =
    device.isolation === undefined || direction === 'both' ? '' : `, passing light from ${direction}`
  return [
    `Insert ${device.name} into the collimated section before the last element is aligned or placed: centred on the beam${way}.`,
  ]
}

function relayBlocks(step: Step, element: RelayElement): readonly Block[] {
  const guide = AXES.filter(([axis]) => axis !== 'gap').map(
    ([axis, label]): Row => [
      `Fibre side, ${label.toLowerCase()}`,
      axis === 'gap' ? undefined : element[axis],
      setBy(element.aligned, axis),
    ],
  )
  const order = alignOrder(element).map((member) => MEMBER_NAMES[member])
  const active = isActive(element)
  return [
    text(`${jointText(step, element)} Order of ${active ? 'alignment' : 'placement'}: ${order.join(', ')}.`),
    table(
      'Distances',
      [...COLUMNS],
      rows(step, [
        ['Fibre face to lens 1', element.frontGap, 'passive placement'],
        ['Collimated section', element.stretch, 'passive placement'],
        ['Lens 2 to facet', element.backGap, 'passive placement'],
      ]),
    ),
    table(
      active ? 'Alignment' : 'Placement',
      [...COLUMNS],
      rows(step, [...lensRows('Lens 1', element.lens1), ...lensRows('Lens 2', element.lens2), ...guide]),
    ),
    ...(element.bondShift === undefined
      ? []
      : [table('Bonding', [...COLUMNS], rows(step, shiftRows(element, 'Cure shift')))]),
    list([
      'Inspect and clean end faces and lenses; record the power after each element is fixed.',
      ...deviceSteps(step, element),
    ]),
  ]
}

function spliceBlocks(step: Step, element: ElementOf<'splice'>): readonly Block[] {
  const { channels } = step.project.requirements
  return [
    text(
      `${channels} ${channels === 1 ? 'splice' : 'splices'} per assembly, ${element.basis === 'typed' ? 'with core diffusion' : 'without core diffusion'}. Nominal loss: ${lossCell(jointDb(step.evaluation, element.id)).text} dB.`,
    ),
    table(
      'Splice',
      [...COLUMNS],
      rows(step, [
        ...(element.basis === 'typed' ? [['Splice loss', element.loss, 'splice program'] as const] : []),
        ['Angle between slow axes', element.keyAngle, 'end-view alignment'],
      ]),
    ),
    list([
      'Strip, clean and cleave both fibres; collect the cleaved ends in a sharps container.',
      'Reject and resplice if the loss exceeds the upper limit, or if a bubble, neck or offset is visible. Protect the splice and record its loss.',
    ]),
  ]
}

/** The steps of a design along the path, and the final test. */
export function processSections(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): readonly Section[] {
  const step: Step = { project, candidate, evaluation, excess: excessAtLimits(project, evaluation) }
  const section = (id: string, title: string, blocks: readonly Block[]): Section => ({
    id,
    title,
    blocks,
    remark: '',
  })
  const joints = candidate.chain.flatMap(
    (element): readonly (readonly [string, string, readonly Block[]])[] => {
      const name = jointWords(candidate.chain, element.id)
      switch (element.kind) {
        case 'splice':
          return [[element.id, 'Fusion splice', spliceBlocks(step, element)]]
        case 'gap':
          return [
            [
              element.id,
              `${isActive(element) ? 'Align' : 'Place'} and fix ${name}`,
              gapBlocks(step, element),
            ],
          ]
        case 'relay':
          return [
            [
              element.id,
              `${isActive(element) ? 'Align' : 'Place'} and fix the relay, ${name}`,
              relayBlocks(step, element),
            ],
          ]
        default:
          return []
      }
    },
  )
  const { temperatureMin, temperatureMax, wavelength, channels } = project.requirements
  const isRow = channels > 1
  return [
    section('cautions', 'Cautions', [text(CAUTIONS)]),
    sequenceSection(project, candidate),
    ...joints.map(([id, title, blocks], i) => section(`step-${id}`, `${i + 1}. ${title}`, blocks)),
    section('final-test', 'Final test and record', [
      table(
        isRow ? 'Insertion loss of every channel' : 'Insertion loss',
        ['Quantity', { label: 'Loss', unit: 'dB' }, 'Meaning'],
        [
          ['Nominal', lossCell(evaluation.nominalDb), 'expected with all quantities at their set values'],
          [
            provisionalLabel('RSS', evaluation),
            lossCell(evaluation.rootSumSquare.lossDb),
            'excess losses of the individual tolerances, added in quadrature',
          ],
          [
            provisionalLabel('Worst case', evaluation),
            lossCell(evaluation.worstCorner.lossDb),
            'all quantities at their limits',
          ],
        ],
      ),
      list([
        ...lossLimitText(project),
        `Test at ${valueText(wavelength)}; repeat at ${valueText(temperatureMin)} and ${valueText(temperatureMax)} as agreed.`,
        `A loss above the worst case (${provisionalLabel(`${fixedText(evaluation.worstCorner.lossDb, 2)} dB`, evaluation)}) is not expected with all quantities within their limits: find the cause before the next assembly is built.`,
      ]),
      table(
        'Record of one assembly',
        ['Step', 'Power before, dBm', 'Power after, dBm', 'Change, dB', 'Operator', 'Date'],
        [
          ...joints.map(([, title], i) => `${i + 1}. ${title}`),
          isRow ? 'Final test, worst channel' : 'Final test',
        ].map((name) => [name, '', '', '', '', '']),
      ),
    ]),
  ]
}
