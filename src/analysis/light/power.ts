// Optical power along a chain, and the irradiance on its faces against what the engineer lets them bear.
// No damage or two-photon limits are known here; nothing says that a set-up is safe.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { beamRadiusUm, type GaussianJoint, peakIrradiance } from '../../optics/index'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { JoinModel, LineModel } from '../path/vector/models'
import type { Values } from '../path/vector/readers'
import type { LineKind } from '../results/evaluation'
import type { PowerFinding, PowerPlace, ShareName } from '../results/lightResults'

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

type Limit = PowerPlace['limit']

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
  const medium = project.media.find((each) => each.id === element.mediumId)
  return stricter(own, limitOf(medium?.name ?? '', medium?.irradianceLimit))
}

/** 1/e^2 diameters of the emitted beam where it meets the far face. */
function atFarFace(joint: GaussianJoint): readonly [xUm: number, yUm: number] {
  const { wavelengthUm, index, gapUm } = joint
  const along = (mfdUm: number, waistUm: number) =>
    2 * beamRadiusUm({ waistRadiusUm: mfdUm / 2, wavelengthUm, index }, gapUm - waistUm)
  return [along(joint.emitterMfdXUm, joint.waistXUm), along(joint.emitterMfdYUm, joint.waistYUm)]
}

type PlaceStart = Omit<PowerPlace, 'irradiance' | 'elementId' | 'limit'>

/** The faces and lenses of one join, with what of `arrivingUw` reaches each. */
function placesOf(join: JoinModel, v: Values, arrivingUw: number): readonly PlaceStart[] {
  const view = join.view?.(v)
  if (view === undefined) return []
  const { near, far, joint } = view
  const mode = near.tip === undefined ? near : { mfdXUm: near.tip.modeMfdXUm, mfdYUm: near.tip.modeMfdYUm }
  const lossTo = (kindEnd: string) => {
    const end = join.lines.findIndex((line) => line.id.endsWith(kindEnd))
    const faces = join.lines
      .slice(0, Math.max(0, end))
      .filter((line) => SHARE_OF[line.kind] !== 'not coupled')
    return faces.reduce((sum, line) => sum + line.lossDb(v), 0)
  }
  const after = (lossDb: number) => arrivingUw * 10 ** (-lossDb / 10)
  const relay = join.relay?.(v)
  const lenses = (relay?.lenses ?? []).map((lens, i) => ({
    label: `Lens ${i + 1}`,
    powerUw: after(lossTo(`fresnel lens ${i + 1}`)),
    mfdXUm: 2 * lens.beamRadiusXUm,
    mfdYUm: 2 * lens.beamRadiusYUm,
  }))
  const [farXUm, farYUm] = atFarFace(joint)
  return [
    { label: 'Near face', powerUw: arrivingUw, mfdXUm: mode.mfdXUm, mfdYUm: mode.mfdYUm },
    ...lenses,
    { label: 'Far face', powerUw: after(lossTo('fresnel far')), mfdXUm: farXUm, mfdYUm: farYUm },
    {
      label: 'Mode behind the far face',
      powerUw: after(join.lossDb(v)),
      mfdXUm: far.mfdXUm,
      mfdYUm: far.mfdYUm,
    },
  ]
}

/** Lines in the order of the light: what arrives at a joint meets all its faces before the far mode takes its part. */
function inOrderOfLight(lines: readonly LineModel[]): readonly LineModel[] {
  const firstOf = new Map<string, number>()
  for (const [i, { elementId }] of lines.entries()) {
    if (!firstOf.has(elementId)) firstOf.set(elementId, i)
  }
  const element = (line: LineModel) => firstOf.get(line.elementId) ?? 0
  const overlap = (line: LineModel) => (SHARE_OF[line.kind] === 'not coupled' ? 1 : 0)
  return lines.toSorted((a, b) => element(a) - element(b) || overlap(a) - overlap(b))
}

/**
 * Shares of the power: what each line takes of what still arrives there. Lines of one overlap count together: its misalignments
 * may each lose more than all of them do.
 */
function sharesOf(compiled: CompiledCandidate, v: Values, inUw: number): PowerFinding['shares'] {
  const shares = { 'on chip': 0, reflected: 0, 'not coupled': 0, 'lost in parts': 0 }
  const lines = inOrderOfLight(compiled.lines)
  const shareOf = (line: LineModel | undefined) => SHARE_OF[line?.kind ?? 'user line'] ?? 'lost in parts'
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
  shares['on chip'] = left
  return shares
}

/**
 * Power and irradiance along a compiled chain for what enters the fibre; null where no power is stated. Lines of one's own
 * count at the end.
 */
export function powerAlong(project: Project, compiled: CompiledCandidate): PowerFinding | null {
  const { powerIn } = project.requirements
  if (powerIn === undefined) return null
  const inUw = coreValue(powerIn, 'power')
  const v = compiled.nominal
  const { chain } = compiled.candidate
  const joinPlaces = chain.flatMap((element, at) =>
    element.kind === 'splice' || element.kind === 'gap' || element.kind === 'relay' ? [at] : [],
  )
  let beforeDb = 0
  const places = compiled.joins.flatMap((join, i) => {
    beforeDb += compiled.guideLossesDb[i]?.(v) ?? 0
    const arriving = inUw * 10 ** (-beforeDb / 10)
    beforeDb += join.lossDb(v)
    const element = chain[joinPlaces[i] ?? -1]
    return placesOf(join, v, arriving).map((place) => ({
      ...place,
      elementId: element?.id ?? '',
      irradiance: peakIrradiance(place.powerUw, place.mfdXUm, place.mfdYUm),
      limit: limitAt(project, element),
    }))
  })
  const shares = sharesOf(compiled, v, inUw)
  return { inUw, onChipUw: shares['on chip'], places, shares }
}

/** The place that is nearest to its limit or furthest beyond it; null where no limit is set. */
export function tightestPlace(places: readonly PowerPlace[]): PowerPlace | null {
  let tightest: PowerPlace | null = null
  let share = 0
  for (const place of places) {
    const own = place.limit === null ? 0 : place.irradiance / place.limit.irradiance
    if (own > share) [tightest, share] = [place, own]
  }
  return tightest
}
