// Fibres as they are ordered: the input fibre with its connector, and stubs; single or in an array, cleaved or with a lensed tip.

import { valueText } from '../../../model/quantity/quantityWords'
import type { ElementOf } from '../../../model/schema/candidate'
import type { FibreEntry, LensedTipEntry } from '../../../model/schema/parts'
import { fixedText } from '../../../numerics/numberText'
import { type Characteristic, stated } from '../../characteristics/characteristic'
import {
  faceCharacteristics,
  faceFacts,
  jointBehind,
  jointIdsOf,
  keyCharacteristics,
  type OrderedItem,
  type PathPosition,
} from './orderedItem'

/** The outline that the design relies on: what is larger may touch the chip. */
function outlineNumbers({ outline }: ElementOf<'fibre' | 'stub'>): readonly Characteristic[] {
  if (outline === undefined) return []
  if (outline.kind === 'tapered') {
    return stated([
      ['endDiameter', 'Diameter of the tapered tip', outline.endDiameter, 'size', 'at most'],
      ['coneAngle', 'Cone half-angle', outline.coneAngle, 'faceAngle', 'at most'],
    ])
  }
  return stated([
    ['blockWidth', 'Block width', outline.width, 'size'],
    ['blockBelow', 'Block below axis', outline.below, 'size', 'at most'],
    ['blockAbove', 'Block above axis', outline.above, 'size', 'at most'],
    ['protrusion', 'Fibre protrusion', outline.protrusion, 'size'],
    ['lidOverhang', 'Lid overhang', outline.lidOverhang, 'size', 'at most'],
  ])
}

function fibreNumbers({ mode, claddingDiameter, concentricity }: FibreEntry): readonly Characteristic[] {
  const known =
    mode.kind === 'mfd'
      ? stated([
          ['mfdX', mode.mfdY === undefined ? 'MFD' : 'MFD x', mode.mfdX, 'farField'],
          ['mfdY', 'MFD y', mode.mfdY, 'farField'],
        ])
      : stated([
          ['coreDiameter', 'Core diameter', mode.coreDiameter, 'coreGeometry'],
          ['na', 'Numerical aperture', mode.na, 'numericalAperture'],
        ])
  return [
    ...known,
    ...stated([
      ['claddingDiameter', 'Cladding diameter', claddingDiameter, 'cladding'],
      ['concentricity', 'Core-cladding concentricity error', concentricity, 'coreGeometry', 'at most'],
    ]),
  ]
}

function tipNumbers({ tip }: LensedTipEntry): readonly Characteristic[] {
  if (tip.kind === 'radius') return stated([['tipRadius', 'Tip radius', tip.radius, 'curvature']])
  return stated([
    [
      'spotX',
      tip.spotY === undefined ? 'Spot size (MFD at focus)' : 'Spot size x (MFD at focus)',
      tip.spotX,
      'offsetScan',
    ],
    ['spotY', 'Spot size y (MFD at focus)', tip.spotY, 'offsetScan'],
    ['workingDistance', 'Working distance in air', tip.workingDistance, 'throughFocus'],
    ['tipRadius', 'Tip radius', tip.radius, 'curvature'],
  ])
}

/** Core places, bow and pitch of the array that holds the fibre's end at the joint. */
function arrayNumbers({ candidate: { array }, project }: PathPosition): readonly Characteristic[] {
  if (array === undefined) return stated([['pitch', 'Pitch', project.requirements.pitch, 'pitch']])
  return stated([
    ['pitch', 'Pitch', array.pitch, 'pitch'],
    ['corePositionX', 'Core position error x', array.coreX, 'corePosition'],
    ['corePositionY', 'Core position error y', array.coreY, 'corePosition'],
    ['bow', 'Bow, outer above middle', array.bow, 'corePosition'],
  ])
}

/** Whether the end at the joint is held in an array: where the design describes one, or the stub is ordered so. */
function inArray(pathPosition: PathPosition, element: ElementOf<'fibre' | 'stub'>): boolean {
  if (pathPosition.project.requirements.channels === 1 || jointBehind(pathPosition) === null) return false
  return pathPosition.candidate.array !== undefined || (element.kind === 'stub' && element.form === 'array')
}

export function fibreItem(
  pathPosition: PathPosition,
  element: ElementOf<'fibre' | 'stub'>,
): OrderedItem | null {
  const { project, evaluation } = pathPosition
  const { channels } = project.requirements
  const fibre = project.fibres.find(({ id }) => id === element.fibreId)
  if (fibre === undefined) return null
  const tip = project.converters.find(
    (each): each is LensedTipEntry => each.kind === 'lensed tip' && each.id === element.tipId,
  )
  const array = inArray(pathPosition, element)
  const stub = element.kind === 'stub'
  const single = tip !== undefined ? 'Lensed fibre' : stub ? 'Fibre stub' : 'Fibre'
  const mode = evaluation.guides.find(({ elementId }) => elementId === element.id)?.entry
  const undecided = stub && channels > 1 && !array && element.form === undefined
  return {
    key: `${element.kind}/${fibre.id}${tip === undefined ? '' : `/${tip.id}`}`,
    name: tip === undefined ? fibre.name : `${tip.name}, on ${fibre.name}`,
    kind: array ? (stub ? 'Stub array' : 'Fibre array') : single,
    piece: array ? `array of ${channels} fibres` : single.toLowerCase(),
    perAssembly: array ? 1 : channels,
    characteristics: [
      ...fibreNumbers(fibre),
      ...(tip === undefined ? [] : tipNumbers(tip)),
      ...(stub ? stated([['length', 'Stub length', element.length, 'length']]) : []),
      ...(array ? arrayNumbers(pathPosition) : []),
      ...outlineNumbers(element),
      ...faceCharacteristics(pathPosition, tip !== undefined),
      ...(fibre.polarisationMaintaining ? keyCharacteristics(pathPosition) : []),
    ],
    facts: [
      [
        'Polarisation',
        fibre.polarisationMaintaining
          ? `polarisation-maintaining${fibre.madeToOrder === true ? ', made to order' : ''}`
          : 'not maintained',
      ],
      ...(fibre.mode.kind === 'core' && mode !== undefined
        ? [
            [
              'Resulting MFD, for information',
              `${fixedText(mode.mfdXUm, 2)} µm at ${valueText(project.requirements.wavelength)}`,
            ] as const,
          ]
        : []),
      ...faceFacts(pathPosition),
    ],
    jointIds: jointIdsOf(pathPosition),
    has: {
      cable: !stub,
      endFace: tip === undefined,
      key: fibre.polarisationMaintaining ? 'slow axis' : null,
    },
    questions: [
      ...(undecided ? [`Supplied as ${channels} individual stubs or as one array: to be decided.`] : []),
      ...(array && pathPosition.candidate.array === undefined
        ? ['Core position error and bow of the array are not stated in the design.']
        : []),
      ...(tip?.tip.kind === 'spot' && tip.tip.radius === undefined
        ? ['Supplier to state the tip radius and its range: the back-reflection depends on it.']
        : []),
    ],
  }
}
