// One line of an order for every part that an element of a chain needs.

import { coreValue, type Quantity } from '../model/quantity/quantity'
import { toleranceText, valueText } from '../model/quantity/quantityWords'
import type { Candidate, ChainElement, Device, RelayElement } from '../model/schema/candidate'
import type { ConverterEntry, FacetEntry, FibreEntry, LensEntry, MediumEntry } from '../model/schema/parts'
import type { Project } from '../model/schema/project'
import { byId } from '../model/words/byId'
import type { StubForm } from '../model/words/candidate'
import { LENS_SHAPE_TEXTS } from '../model/words/parts'
import { coatingWords, lensCoating } from './coatingWords'
import { type Dimensions, partDimensions } from './partDimensions'

export interface OrderLine {
  readonly part: string
  readonly quantity: string
  readonly dimension: string
  readonly tolerance: string
  readonly faceAngle: string
  /** Turn of a guide's axis against that of the next, by Snell. */
  readonly pointing: string
  readonly pitch: string
  readonly coating: string
  readonly medium: string
  readonly notes: string
}

type LineStart = Pick<OrderLine, 'part' | 'quantity'> & Partial<OrderLine>

const EMPTY = {
  dimension: '',
  tolerance: '',
  faceAngle: '',
  pointing: '',
  pitch: '',
  coating: '',
  medium: '',
  notes: '',
}
const line = (start: LineStart): OrderLine => ({ ...EMPTY, ...start })
const joined = (...texts: readonly string[]) => texts.filter((text) => text !== '').join('; ')

const NONE = 'none given'

/** What the supplier must hold; a measurement of one part is none. */
const productionTolerance = (quantity: Quantity): string =>
  toleranceText(quantity) ||
  (quantity.uncertainty === undefined
    ? NONE
    : 'production tolerance to be agreed; the value was measured on one part')

/** One tolerance per number; the numbers at the end that have none are said in one word. */
function tolerancesText(tolerances: readonly string[]): string {
  const stated = tolerances.findLastIndex((each) => each !== NONE) + 1
  const rest = tolerances.length - stated
  return stated === 0 || rest < 2
    ? tolerances.join(', ')
    : [...tolerances.slice(0, stated), `others: ${NONE}`].join(', ')
}

/** Labelled numbers as dimension and tolerance, in the same order. */
function dimensions(entries: Dimensions) {
  const known = entries.flatMap(([label, quantity]) => (quantity === undefined ? [] : [{ label, quantity }]))
  return {
    dimension: known.map(({ label, quantity }) => `${label} ${valueText(quantity)}`).join(', '),
    tolerance: tolerancesText(known.map(({ quantity }) => productionTolerance(quantity))),
  }
}

/** As single pieces or as an array, where it is decided; else the two ways. */
function channelsText(project: Project, form?: StubForm): string {
  const { channels } = project.requirements
  if (channels === 1) return '1'
  if (form !== undefined) return form === 'array' ? `1 array of ${channels}` : `${channels} individual`
  return `${channels}, or 1 array of ${channels}`
}

/** An element of a candidate's chain. */
interface PathPosition {
  /** Pointing of the guide in front of a join, by the join's id, as text. */
  readonly pointings: ReadonlyMap<string, string>
  readonly project: Project
  readonly candidate: Candidate
  readonly at: number
}

const joinAt = ({ candidate, at }: PathPosition): ChainElement | undefined => candidate.chain[at]

/** Angle of the end face that a guide turns towards a join; empty where the join has none. */
function faceAngle(pathPosition: PathPosition, side: 'nearFaceAngle' | 'farFaceAngle'): string {
  const join = joinAt({
    ...pathPosition,
    at: side === 'nearFaceAngle' ? pathPosition.at + 1 : pathPosition.at - 1,
  })
  return join?.kind === 'gap' || join?.kind === 'relay'
    ? `${valueText(join[side])} ${toleranceText(join[side])}`.trim()
    : ''
}

/** The coating of the end face that a guide turns towards a join; empty where it is bare. */
function coatingText(pathPosition: PathPosition, side: 'nearCoating' | 'farCoating'): string {
  const join = joinAt({
    ...pathPosition,
    at: side === 'nearCoating' ? pathPosition.at + 1 : pathPosition.at - 1,
  })
  const coating = join?.kind === 'gap' || join?.kind === 'relay' ? join[side] : undefined
  return coating === undefined ? '' : coatingWords(coating)
}

function pointingText({ candidate, at, pointings }: PathPosition): string {
  return pointings.get(candidate.chain[at + 1]?.id ?? '') ?? ''
}

function pitchText(project: Project, pitch: Quantity = project.requirements.pitch): string {
  return project.requirements.channels === 1 ? '' : `${valueText(pitch)} ${toleranceText(pitch)}`.trim()
}

/** Medium at the end face that a guide turns towards the chip. */
function mediumBehind(pathPosition: PathPosition): string {
  const join = joinAt({ ...pathPosition, at: pathPosition.at + 1 })
  if (join?.kind !== 'gap' && join?.kind !== 'relay') return ''
  return byId(pathPosition.project.media, join.mediumId)?.name ?? ''
}

/** A loss with its tolerance; without one it is a bound. */
function lossWords(quantity: Quantity): string {
  const tolerance = toleranceText(quantity)
  return tolerance === '' ? `at most ${valueText(quantity)}` : `${valueText(quantity)} ${tolerance}`
}

/** The fibre array's own tolerances, at the fibre whose end it holds. */
function blockText({ candidate, at }: PathPosition): string {
  const { array, chain } = candidate
  const join = chain[at + 1]
  if (array === undefined || (join?.kind !== 'gap' && join?.kind !== 'relay')) return ''
  const own = [
    ['core position x', array.coreX],
    ['y', array.coreY],
    ['bow', array.bow],
  ] as const
  return `in an array: ${own.map(([label, quantity]) => `${label} ${toleranceText(quantity) || 'none given'}`).join(', ')}`
}

function polarisationText(fibre: FibreEntry): string {
  if (!fibre.polarisationMaintaining) return ''
  return `polarisation-maintaining (supplier to mark the slow axis)${fibre.madeToOrder === true ? '; made to order' : ''}`
}

function fibreLine(
  fibre: FibreEntry,
  pathPosition: PathPosition,
  use: string,
  extra: string,
  form?: StubForm,
): OrderLine {
  const { project, candidate } = pathPosition
  const spliced = joinAt({ ...pathPosition, at: pathPosition.at + 1 })?.kind === 'splice'
  return line({
    part: fibre.name,
    quantity: spliced
      ? String(project.requirements.channels)
      : channelsText(project, form ?? (blockText(pathPosition) === '' ? undefined : 'array')),
    ...dimensions(partDimensions('fibres', fibre)),
    faceAngle: faceAngle(pathPosition, 'nearFaceAngle'),
    pointing: pointingText(pathPosition),
    coating: coatingText(pathPosition, 'nearCoating'),
    // A fibre that is spliced on has no row.
    pitch: spliced ? '' : pitchText(project, candidate.array?.pitch),
    medium: mediumBehind(pathPosition),
    notes: joined(use, extra, blockText(pathPosition), polarisationText(fibre)),
  })
}

function converterLine(converter: ConverterEntry, pathPosition: PathPosition): OrderLine {
  const { project } = pathPosition
  if (converter.kind === 'lensed tip') {
    const open = converter.tip.kind === 'spot' && converter.tip.radius === undefined
    return line({
      part: converter.name,
      quantity: String(project.requirements.channels),
      ...dimensions(partDimensions('converters', converter)),
      medium: mediumBehind(pathPosition),
      notes: joined(
        'on the fibre above; in air only: keep adhesive away from the tip',
        open ? 'supplier to state the tip radius and its range: the back-reflection depends on it' : '',
      ),
    })
  }
  return line({
    part: converter.name,
    quantity: '1',
    ...dimensions(partDimensions('converters', converter)),
    faceAngle: joined(faceAngle(pathPosition, 'farFaceAngle'), faceAngle(pathPosition, 'nearFaceAngle')),
    pointing: pointingText(pathPosition),
    coating: joined(coatingText(pathPosition, 'farCoating'), coatingText(pathPosition, 'nearCoating')),
    pitch: joined(pitchText(project, converter.inputPitch), pitchText(project, converter.outputPitch)),
    medium: mediumBehind(pathPosition),
    notes: joined(`loss ${lossWords(converter.transmissionLoss)}`, converter.holder ?? ''),
  })
}

function lensLine(lens: LensEntry, project: Project, number: 1 | 2): OrderLine {
  const glass = lens.glass.kind === 'material' ? lens.glass.material : `index ${valueText(lens.glass.index)}`
  const { channels } = project.requirements
  return line({
    part: lens.name,
    quantity: lens.pitch === undefined ? String(channels) : `1 array of ${channels}`,
    ...dimensions(partDimensions('lenses', lens)),
    pitch: lens.pitch === undefined ? '' : pitchText(project, lens.pitch),
    coating: lensCoating(lens),
    notes: `lens ${number} of the relay, ${LENS_SHAPE_TEXTS[lens.shape.kind]}, ${glass}`,
  })
}

/** One device for the row where its aperture spans it. */
function deviceQuantity(project: Project, device: Device): string {
  const { channels, pitch } = project.requirements
  const rowUm = (channels - 1) * coreValue(pitch, 'pitch')
  if (channels === 1) return '1'
  return coreValue(device.clearAperture, 'aperture') > rowUm
    ? `1 for all ${channels} channels`
    : String(channels)
}

function deviceLine(device: Device, project: Project): OrderLine {
  return line({
    part: device.name,
    quantity: deviceQuantity(project, device),
    ...dimensions([
      ['length', device.length],
      ['clear aperture', device.clearAperture],
      ['loss', device.loss],
    ]),
    notes: device.isolation === undefined ? '' : `isolation at least ${valueText(device.isolation)}`,
  })
}

function mediumLine(medium: MediumEntry): OrderLine {
  return line({
    part: medium.name,
    quantity: 'as needed',
    ...dimensions(partDimensions('media', medium)),
    medium: medium.state,
    notes: medium.thermoOptic === undefined ? '' : `dn/dT ${valueText(medium.thermoOptic)}`,
  })
}

function facetLine(facet: FacetEntry, pathPosition: PathPosition): OrderLine {
  const { channels } = pathPosition.project.requirements
  return line({
    part: facet.name,
    quantity: channels === 1 ? '1 chip' : `1 chip with ${channels} facets`,
    ...dimensions(partDimensions('facets', facet)),
    faceAngle: faceAngle(pathPosition, 'farFaceAngle'),
    coating: coatingText(pathPosition, 'farCoating'),
    pitch: pitchText(pathPosition.project),
    notes: `from the foundry; taper loss ${lossWords(facet.taperLoss)}`,
  })
}

const find = <T extends { readonly id: string }>(list: readonly T[], id: string | undefined): readonly T[] =>
  list.filter((each) => each.id === id)

function relayLines(project: Project, relay: RelayElement): readonly OrderLine[] {
  return [
    ...find(project.lenses, relay.lens1Id).map((lens) => lensLine(lens, project, 1)),
    ...(relay.device === undefined ? [] : [deviceLine(relay.device, project)]),
    ...find(project.lenses, relay.lens2Id).map((lens) => lensLine(lens, project, 2)),
  ]
}

export function orderLines(pathPosition: PathPosition): readonly OrderLine[] {
  const { project } = pathPosition
  const element = joinAt(pathPosition)
  switch (element?.kind) {
    case 'fibre':
    case 'stub': {
      const [use, extra] =
        element.kind === 'stub'
          ? ['stub', `length ${valueText(element.length)} ${toleranceText(element.length)}`.trim()]
          : ['input fibre', '']
      const form = element.kind === 'stub' ? element.form : undefined
      return [
        ...find(project.fibres, element.fibreId).map((fibre) =>
          fibreLine(fibre, pathPosition, use, extra, form),
        ),
        ...find(project.converters, element.tipId).map((tip) => converterLine(tip, pathPosition)),
      ]
    }
    case 'splice': {
      const loss = `loss ${lossWords(element.loss)}`
      return [
        line({
          part: 'Fusion splice',
          quantity: String(project.requirements.channels),
          notes:
            element.basis === 'typed'
              ? `with core diffusion, ${loss}`
              : 'without core diffusion: abrupt mismatch',
        }),
      ]
    }
    case 'gap':
      return find(project.media, element.mediumId)
        .filter((medium) => medium.state !== 'gas')
        .map(mediumLine)
    case 'relay':
      return relayLines(project, element)
    case 'taper chip':
      return find(project.converters, element.converterId).map((chip) => converterLine(chip, pathPosition))
    case 'facet':
      return find(project.facets, element.facetId).map((facet) => facetLine(facet, pathPosition))
    default:
      return []
  }
}
