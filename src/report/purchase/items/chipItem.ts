// Chips as they are ordered: the photonic chip with its facets, and the spot-size converter chip.

import type { FacetEntry, TaperChipEntry } from '../../../model/schema/parts'
import { stated } from '../../characteristics/characteristic'
import {
  faceCharacteristics,
  faceFacts,
  jointIdsOf,
  keyCharacteristics,
  type OrderedItem,
  type PathPosition,
} from './orderedItem'

const NO_CABLE = { cable: false, endFace: true, key: null } as const

export function taperChipItem(pathPosition: PathPosition, chip: TaperChipEntry): OrderedItem {
  const { channels } = pathPosition.project.requirements
  const pitches =
    channels === 1
      ? []
      : stated([
          ['inputPitch', 'Pitch, fibre side', chip.inputPitch, 'pitch'],
          ['outputPitch', 'Pitch, chip side', chip.outputPitch, 'pitch'],
        ])
  return {
    key: `taper chip/${chip.id}`,
    name: chip.name,
    kind: 'Spot-size converter chip',
    piece: channels === 1 ? 'chip' : `chip with ${channels} channels`,
    perAssembly: 1,
    characteristics: [
      ...stated([
        ['inputMfdX', 'MFD x, fibre side', chip.inputMfdX, 'nearField'],
        ['inputMfdY', 'MFD y, fibre side', chip.inputMfdY, 'nearField'],
        ['outputMfdX', 'MFD x, chip side', chip.outputMfdX, 'nearField'],
        ['outputMfdY', 'MFD y, chip side', chip.outputMfdY, 'nearField'],
        ['transmissionLoss', 'Insertion loss', chip.transmissionLoss, 'insertionLoss', 'at most'],
      ]),
      ...pitches,
      ...faceCharacteristics(pathPosition),
      ...keyCharacteristics(pathPosition),
    ],
    facts: [
      ...(chip.holder === undefined ? [] : [['Carrier', chip.holder] as const]),
      ...faceFacts(pathPosition),
    ],
    jointIds: jointIdsOf(pathPosition),
    has: NO_CABLE,
    questions: [],
  }
}

/** The edge in front of the facet, as it is to be etched and diced. */
function edgeCharacteristics({ chipEdge }: FacetEntry) {
  if (chipEdge === undefined) return []
  const { groove } = chipEdge
  return stated([
    ['recess', 'Facet recess behind dicing edge', chipEdge.recess, 'size', 'at most'],
    ['ledgeDepth', 'Ledge below waveguide', chipEdge.ledgeDepth, 'size', 'at least'],
    ['trenchLength', 'Trench length', chipEdge.trenchLength, 'size', 'at least'],
    ['trenchDepth', 'Trench below waveguide', chipEdge.trenchDepth, 'size', 'at least'],
    ['chipThickness', 'Chip thickness', chipEdge.chipThickness, 'size'],
    ['lidHeight', 'Lid height', chipEdge.lidHeight, 'size', 'at most'],
    ['lidDistance', 'Lid behind facet', chipEdge.lidDistance, 'size', 'at least'],
    ['grooveWidth', 'Groove width', groove?.grooveWidth, 'size'],
    ['wallAngle', 'Groove sidewall angle', groove?.wallAngle, 'faceAngle'],
    ['grooveSurface', 'Groove surface below waveguide', groove?.grooveSurface, 'size'],
    ['groovePosition', 'Groove position x', groove?.groovePosition, 'size'],
  ])
}

export function facetItem(pathPosition: PathPosition, facet: FacetEntry): OrderedItem {
  const { channels, pitch } = pathPosition.project.requirements
  return {
    key: `facet/${facet.id}`,
    name: facet.name,
    kind: 'Photonic chip',
    piece: channels === 1 ? 'chip' : `chip with ${channels} facets`,
    perAssembly: 1,
    characteristics: [
      ...stated([
        ['mfdX', 'MFD x at the facet', facet.mfdX, 'nearField'],
        ['mfdY', 'MFD y at the facet', facet.mfdY, 'nearField'],
        ['tmMfdX', 'MFD x at the facet, TM', facet.tm?.mfdX, 'nearField'],
        ['tmMfdY', 'MFD y at the facet, TM', facet.tm?.mfdY, 'nearField'],
        ['taperLoss', 'Loss of the on-chip taper', facet.taperLoss, 'insertionLoss', 'at most'],
        ['tmTaperLoss', 'Loss of the on-chip taper, TM', facet.tm?.taperLoss, 'insertionLoss', 'at most'],
        ['substrateLeakage', 'Substrate leakage', facet.substrateLeakage, 'insertionLoss', 'at most'],
        ['tipWidth', 'Width of the taper tip', facet.tipWidth, 'guideWidth'],
        ['routingWidth', 'Width of the routing waveguide', facet.routingWidth, 'guideWidth'],
        ['guideWidth', 'Waveguide width at the facet', facet.guideWidth, 'guideWidth'],
        ['guideHeight', 'Waveguide height at the facet', facet.guideHeight, 'filmThickness'],
        ['depth', 'Depth of the waveguide below the surface', facet.depth, 'guideWidth'],
      ]),
      ...edgeCharacteristics(facet),
      ...(channels === 1 ? [] : stated([['pitch', 'Pitch', pitch, 'pitch']])),
      ...faceCharacteristics(pathPosition),
    ],
    facts: faceFacts(pathPosition),
    jointIds: jointIdsOf(pathPosition),
    has: NO_CABLE,
    questions: [],
  }
}
