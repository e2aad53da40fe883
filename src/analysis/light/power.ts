// Optical power along a chain, and the irradiance on its faces against the limits that the engineer sets.
// No damage or two-photon limits are known here; nothing says that a set-up is safe.

import { jointNames, ofJoint } from '../../model/designs/jointNames'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { beamRadiusUm, type GaussianJoint, peakIrradiance } from '../../optics/index'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { JoinModel, LineModel } from '../path/vector/elementModels'
import type { Values } from '../path/vector/valueReaders'
import type { LineKind, Port } from '../results/evaluation'
import type { PowerFinding, PowerLocation, ShareName } from '../results/lightResults'

const SHARE_OF: Readonly<Partial<Record<LineKind, ShareName>>> = {
  'mode mismatch': 'not coupled',
  gap: 'not coupled',
  'lateral offset': 'not coupled',
  tilt: 'not coupled',
  roll: 'not coupled',
  combined: 'not coupled',
  'mode shape': 'not coupled',
  aberration: 'not coupled',
  fresnel: 'reflected',
}

type Limit = PowerLocation['limit']

const limitOf = (what: string, quantity: Quantity | undefined): Limit =>
  quantity === undefined ? null : { what, irradiance: coreValue(quantity, 'irradiance') }

/** The stricter of two limits. */
function stricter(a: Limit, b: Limit): Limit {
  if (a === null || b === null) return a ?? b
  return a.irradiance <= b.irradiance ? a : b
}

function limitAt(project: Project, element: ChainElement | undefined): Limit {
  const own = limitOf('face or coating', project.requirements.faceIrradiance)
  if (element?.kind !== 'gap' && element?.kind !== 'relay') return own
  const medium = byId(project.media, element.mediumId)
  return stricter(own, limitOf(medium?.name ?? '', medium?.irradianceLimit))
}

/** 1/e^2 diameters of a guide's mode on the other side of a gap. */
function acrossGap(
  { wavelengthUm, index, gapUm }: GaussianJoint,
  mode: Pick<Port, 'mfdXUm' | 'mfdYUm' | 'waistXUm' | 'waistYUm'>,
): readonly [xUm: number, yUm: number] {
  const along = (mfdUm: number, waistUm: number) =>
    2 * beamRadiusUm({ waistRadiusUm: mfdUm / 2, wavelengthUm, index }, gapUm - waistUm)
  return [along(mode.mfdXUm, mode.waistXUm), along(mode.mfdYUm, mode.waistYUm)]
}

type LocationStart = Omit<PowerLocation, 'irradiance' | 'elementId' | 'limit'>

/** The mode in the glass of a guide; that of a lensed tip is the fibre's own. */
const ownMode = ({ tip, mfdXUm, mfdYUm }: Port): readonly [xUm: number, yUm: number] =>
  tip === undefined ? [mfdXUm, mfdYUm] : [tip.modeMfdXUm, tip.modeMfdYUm]

/** The faces and lenses of one join along the path, with what of `arrivingUw` reaches each. */
function locationsOf(
  join: JoinModel,
  v: Values,
  arrivingUw: number,
  fromChip: boolean,
): readonly LocationStart[] {
  const view = join.view?.(v)
  if (view === undefined) return []
  const { near, far, joint } = view
  const faces = join.lines.filter((line) => SHARE_OF[line.kind] !== 'not coupled')
  const met = fromChip ? faces.toReversed() : faces
  const lossTo = (kindEnd: string) => {
    const end = met.findIndex((line) => line.id.endsWith(kindEnd))
    return met.slice(0, Math.max(0, end)).reduce((sum, line) => sum + line.lossDb(v), 0)
  }
  const after = (lossDb: number) => arrivingUw * 10 ** (-lossDb / 10)
  const location = (
    label: string,
    powerUw: number,
    [mfdXUm, mfdYUm]: readonly [number, number],
  ): LocationStart => ({
    label,
    powerUw,
    mfdXUm,
    mfdYUm,
  })
  const relay = join.relay?.(v)
  const lenses = (relay?.lenses ?? []).map((lens, i) =>
    location(`Lens ${i + 1}`, after(lossTo(`fresnel lens ${i + 1}`)), [
      2 * (fromChip ? lens.fromChipRadiusXUm : lens.beamRadiusXUm),
      2 * (fromChip ? lens.fromChipRadiusYUm : lens.beamRadiusYUm),
    ]),
  )
  const left = after(join.lossDb(v))
  if (fromChip) {
    const ownBeam = { mfdXUm: joint.receiverMfdXUm, mfdYUm: joint.receiverMfdYUm, waistXUm: 0, waistYUm: 0 }
    const atNear = relay === undefined ? acrossGap(joint, ownBeam) : relay.fromChipAtNearUm
    return [
      location('Chip-side face', arrivingUw, ownMode(far)),
      ...lenses.toReversed(),
      location('Fibre-side face', after(lossTo('fresnel near')), atNear),
      location('Mode behind the fibre-side face', left, ownMode(near)),
    ]
  }
  const image = { ...joint, mfdXUm: joint.emitterMfdXUm, mfdYUm: joint.emitterMfdYUm }
  return [
    location('Fibre-side face', arrivingUw, ownMode(near)),
    ...lenses,
    location('Chip-side face', after(lossTo('fresnel far')), acrossGap(joint, image)),
    location('Mode behind the chip-side face', left, ownMode(far)),
  ]
}

/** Lines of the design as a whole come after those of its elements. */
const isWhole = ({ kind }: LineModel) => kind === 'user line' || kind === 'drift'

/** Lines along the path: what arrives at a joint meets all its faces before the far mode takes its part. */
function inOrderOfLight(lines: readonly LineModel[], fromChip: boolean): readonly LineModel[] {
  const firstOf = new Map<string, number>()
  for (const [i, { elementId }] of lines.entries()) {
    if (!firstOf.has(elementId)) firstOf.set(elementId, i)
  }
  const element = (line: LineModel) => {
    const own = isWhole(line) ? lines.length : (firstOf.get(line.elementId) ?? 0)
    return fromChip && !isWhole(line) ? -own : own
  }
  const overlap = (line: LineModel) => (SHARE_OF[line.kind] === 'not coupled' ? 1 : 0)
  const met = fromChip ? lines.toReversed() : lines
  return met.toSorted((a, b) => element(a) - element(b) || overlap(a) - overlap(b))
}

/**
 * Shares of the power: what each line takes of what still arrives there. Lines of one overlap are taken together: its misalignments
 * may each lose more than all of them do.
 */
function sharesOf(
  compiled: CompiledCandidate,
  v: Values,
  inUw: number,
  fromChip: boolean,
): PowerFinding['shares'] {
  const shares = { delivered: 0, reflected: 0, 'not coupled': 0, 'lost in components': 0 }
  const lines = inOrderOfLight(compiled.lines, fromChip)
  const shareOf = (line: LineModel | undefined) => SHARE_OF[line?.kind ?? 'user line'] ?? 'lost in components'
  let left = inUw
  let lossDb = 0
  for (const [i, line] of lines.entries()) {
    lossDb += line.lossDb(v)
    const following = lines[i + 1]
    if (following?.elementId === line.elementId && shareOf(following) === shareOf(line)) continue
    const next = left * 10 ** (-lossDb / 10)
    shares[shareOf(line)] += left - next
    left = next
    lossDb = 0
  }
  shares.delivered = left
  return shares
}

/** Every face and lens on the way of the light one way through the path. */
function locationsAlong(
  project: Project,
  compiled: CompiledCandidate,
  inUw: number,
  fromChip: boolean,
): readonly PowerLocation[] {
  const v = compiled.nominal
  const joinElements = compiled.candidate.chain.filter(
    ({ kind }) => kind === 'splice' || kind === 'gap' || kind === 'relay',
  )
  // What the guide in front of each join loses, as the light goes.
  const guides = fromChip
    ? [...compiled.guideLossesDb.slice(1), compiled.lastGuideLossDb]
    : compiled.guideLossesDb
  const steps = compiled.joins.map((join, i) => ({ join, element: joinElements[i], guide: guides[i] }))
  const names = jointNames(compiled.candidate.chain)
  let beforeDb = 0
  return (fromChip ? steps.toReversed() : steps).flatMap(({ join, element, guide }) => {
    beforeDb += guide?.(v) ?? 0
    const arriving = inUw * 10 ** (-beforeDb / 10)
    beforeDb += join.lossDb(v)
    return locationsOf(join, v, arriving, fromChip).map((location) => ({
      ...location,
      label: ofJoint(location.label, names.get(element?.id ?? '')),
      elementId: element?.id ?? '',
      irradiance: peakIrradiance(location.powerUw, location.mfdXUm, location.mfdYUm),
      limit: limitAt(project, element),
    }))
  })
}

/**
 * Power and irradiance along a compiled path for what is launched into it, the way the light goes; both ways one after the other where
 * it goes both ways, with the shares of light from the fibre. Null where no power is stated. User-defined lines come at the end.
 */
export function powerAlong(project: Project, compiled: CompiledCandidate): PowerFinding | null {
  const { powerIn, direction } = project.requirements
  if (powerIn === undefined) return null
  const inUw = coreValue(powerIn, 'power')
  const fromChip = direction === 'chip to fibre'
  const there = locationsAlong(project, compiled, inUw, fromChip)
  const back = direction === 'both' ? locationsAlong(project, compiled, inUw, true) : []
  const shares = sharesOf(compiled, compiled.nominal, inUw, fromChip)
  return {
    inUw,
    outUw: shares.delivered,
    fromChip,
    locations: [
      ...there,
      ...back.map((location) => ({ ...location, label: `${location.label}, from the chip` })),
    ],
    shares,
  }
}

/** The place that is nearest to its limit or furthest beyond it; null where no limit is set. */
export function tightestLocation(locations: readonly PowerLocation[]): PowerLocation | null {
  let tightest: PowerLocation | null = null
  let share = 0
  for (const location of locations) {
    const own = location.limit === null ? 0 : location.irradiance / location.limit.irradiance
    if (own > share) [tightest, share] = [location, own]
  }
  return tightest
}
