// Lenses and the device between them as they are ordered.

import { coreValue, type Quantity } from '../../../model/quantity/quantity'
import { fieldWords, valueText } from '../../../model/quantity/quantityWords'
import type { Device, RelayElement } from '../../../model/schema/candidate'
import type { LensEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { LENS_SHAPE_TEXTS } from '../../../model/words/parts'
import { stated } from '../../characteristics/characteristic'
import type { MethodId } from '../../characteristics/methods'
import { lensCoating } from '../../coatingWords'
import type { OrderedItem } from './orderedItem'

const NOTHING_MORE = { cable: false, endFace: false, key: null } as const

const METHOD_OF: Readonly<Record<string, MethodId>> = {
  focalLength: 'throughFocus',
  radius: 'curvature',
  frontRadius: 'curvature',
  backRadius: 'curvature',
  rodPitch: 'rodPitch',
}

const titled = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`

function isQuantity(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'value' in value && 'unit' in value
}

/** Conic and aspheric terms are plain numbers, which the drawing of the supplier tolerances. */
function termFacts({ shape }: LensEntry): readonly (readonly [string, string])[] {
  return Object.entries(shape).flatMap(([field, value]): readonly (readonly [string, string])[] =>
    typeof value === 'number'
      ? [[titled(fieldWords(field)), String(value)]]
      : Array.isArray(value)
        ? [[titled(fieldWords(field)), value.join(', ')]]
        : [],
  )
}

function lensItem(project: Project, lens: LensEntry, joint: RelayElement, number: 1 | 2): OrderedItem {
  const { channels } = project.requirements
  const array = lens.pitch !== undefined && channels > 1
  const glass = lens.glass.kind === 'material' ? lens.glass.material : `index ${valueText(lens.glass.index)}`
  const numbers = Object.entries(lens.shape).flatMap(([field, value]) =>
    isQuantity(value) ? stated([[field, titled(fieldWords(field)), value, METHOD_OF[field] ?? 'size']]) : [],
  )
  return {
    key: `lens/${lens.id}`,
    name: lens.name,
    kind: array ? 'Lens array' : 'Lens',
    piece: array ? `array of ${channels} lenses` : 'lens',
    perAssembly: array ? 1 : channels,
    characteristics: [
      ...numbers,
      ...stated([
        ['clearAperture', 'Clear aperture', lens.clearAperture, 'size', 'at least'],
        [
          'reflectance',
          'Reflectance per face',
          lens.films === undefined ? lens.coating : undefined,
          'reflectance',
          'at most',
        ],
        [
          'glassIndex',
          'Refractive index of the glass',
          lens.glass.kind === 'value' ? lens.glass.index : undefined,
          'index',
        ],
        ...(lens.films ?? []).map(
          ({ thickness }, i) =>
            [
              `film${i + 1}`,
              `Thickness of film ${i + 1} from the glass`,
              thickness,
              'filmThickness',
            ] as const,
        ),
        ['pitch', 'Pitch', array ? lens.pitch : undefined, 'pitch'],
      ]),
    ],
    facts: [
      ['Use', `lens ${number} of the relay`],
      ['Shape', LENS_SHAPE_TEXTS[lens.shape.kind]],
      ['Glass', glass],
      ['Coating', lensCoating(lens)],
      ...termFacts(lens),
    ],
    jointIds: [joint.id],
    has: NOTHING_MORE,
    questions: [],
  }
}

function deviceItem({ requirements }: Project, device: Device, joint: RelayElement): OrderedItem {
  const { channels, pitch } = requirements
  // One device serves the whole row where its aperture spans it.
  const spans = coreValue(device.clearAperture, 'aperture') > (channels - 1) * coreValue(pitch, 'pitch')
  return {
    key: `device/${joint.id}`,
    name: device.name,
    kind: 'Component in the collimated section',
    piece: spans && channels > 1 ? `piece for all ${channels} channels` : 'piece',
    perAssembly: spans ? 1 : channels,
    characteristics: stated([
      ['loss', 'Insertion loss', device.loss, 'insertionLoss', 'at most'],
      ['isolation', 'Isolation', device.isolation, 'isolation', 'at least'],
      ['length', 'Length along the beam', device.length, 'length'],
      ['clearAperture', 'Clear aperture', device.clearAperture, 'size', 'at least'],
      ['rotation', 'Polarisation rotation', device.rotation, 'rotation'],
    ]),
    facts: [['Refractive index, for information', valueText(device.index)]],
    jointIds: [joint.id],
    has: { ...NOTHING_MORE, key: device.rotation === undefined ? null : 'input polarisation' },
    questions: [],
  }
}

/** Both lenses and the device, along the path. */
export function relayItems(project: Project, relay: RelayElement): readonly OrderedItem[] {
  const lens = (id: string, number: 1 | 2) =>
    project.lenses.filter((each) => each.id === id).map((each) => lensItem(project, each, relay, number))
  return [
    ...lens(relay.lens1Id, 1),
    ...(relay.device === undefined ? [] : [deviceItem(project, relay.device, relay)]),
    ...lens(relay.lens2Id, 2),
  ]
}
