// The elements of an optical path as the Path strip shows them: names, losses, and the 1/e² radii of the mode inside each.

import type { Evaluation, Port } from '../../analysis/results/evaluation'
import { partName } from '../../model/project/references'
import { coreValue } from '../../model/quantity/quantity'
import { valueText } from '../../model/quantity/quantityWords'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { fixedText, significantText } from '../../numerics/numberText'
import { beamRadiusUm } from '../../optics/index'

/** The mode at a place of a stop, 0 at its start and 1 at its end. */
export interface StripStation {
  readonly at: number
  readonly radiusXUm: number
  readonly radiusYUm: number
  /** Of the beam's axis, in units of the radius; for decentred and tilted lenses. */
  readonly shiftX?: number
  readonly shiftY?: number
}

export interface StripLens {
  readonly from: number
  readonly to: number
  /** Depths of its two faces in units of half its aperture, positive when bulging outwards; 0 for flat ones. */
  readonly front: number
  readonly back: number
  readonly x: StripLensPose
  readonly y: StripLensPose
}

export interface StripLensPose {
  /** Decentre in units of half the aperture. */
  readonly shift: number
  /** Slope of the axis, rad. */
  readonly tiltRad: number
}

export interface PathStop {
  readonly id: string
  readonly kind: ChainElement['kind']
  readonly name: string
  /** MFD of a guide, loss of a join. */
  readonly detail: string
  /** The same in fewer words, for a narrow place; the shortest last. */
  readonly shorter: readonly string[]
  readonly lossDb: number
  /** Part of the width, in any unit. */
  readonly share: number
  readonly stations: readonly StripStation[]
  /** Glass, air or adhesive around the mode. */
  readonly ground: 'glass' | 'air' | 'adhesive'
  /** Slopes dz/dy of its two end faces where they are angled; only joins have faces. */
  readonly faces: readonly [number, number]
  readonly lenses: readonly StripLens[]
  readonly device: { readonly from: number; readonly to: number; readonly name: string } | null
  /** True where the fibre ends on a lens. */
  readonly isTip: boolean
  /** Channels that lie side by side in the part; 1 for a single one. */
  readonly channels: number
}

const SHARES: Readonly<Record<ChainElement['kind'], number>> = {
  fibre: 3,
  stub: 2.6,
  'taper chip': 3.3,
  facet: 4,
  splice: 1.3,
  gap: 1.8,
  relay: 5,
}
const STEPS = 24

const um = (x: number, y: number) =>
  Math.abs(x - y) < 0.005 ? `${fixedText(x, 1)} µm` : `${fixedText(x, 1)} × ${fixedText(y, 1)} µm`

/** Inside a fibre with a lensed end the mode is the fibre's own. */
const insideOf = (port: Port) =>
  port.tip === undefined
    ? { x: port.mfdXUm, y: port.mfdYUm }
    : { x: port.tip.modeMfdXUm, y: port.tip.modeMfdYUm }

/** From one mode to another along a smooth transition, as in a taper or a fused splice. */
function transition(
  from: { x: number; y: number },
  to: { x: number; y: number },
  start = 0,
  end = 1,
): readonly StripStation[] {
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const at = i / STEPS
    const along = Math.min(1, Math.max(0, (at - start) / (end - start)))
    const part = (1 - Math.cos(Math.PI * along)) / 2
    return {
      at,
      radiusXUm: (from.x + (to.x - from.x) * part) / 2,
      radiusYUm: (from.y + (to.y - from.y) * part) / 2,
    }
  })
}

/** The emitted beam across a gap, by the law of a Gaussian beam. */
function gapStations({ joint }: Evaluation['joints'][number]): readonly StripStation[] {
  const { wavelengthUm, index, gapUm, emitterMfdXUm, emitterMfdYUm, waistXUm, waistYUm } = joint
  const radius = (mfdUm: number, waistUm: number, zUm: number) =>
    beamRadiusUm({ waistRadiusUm: mfdUm / 2, wavelengthUm, index }, zUm - waistUm)
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const at = i / STEPS
    return {
      at,
      radiusXUm: radius(emitterMfdXUm, waistXUm, at * gapUm),
      radiusYUm: radius(emitterMfdYUm, waistYUm, at * gapUm),
    }
  })
}

function groundOf(project: Project, element: ChainElement): PathStop['ground'] {
  if (element.kind !== 'gap' && element.kind !== 'relay') return 'glass'
  return project.media.find(({ id }) => id === element.mediumId)?.state === 'gas' ? 'air' : 'adhesive'
}

function facesOf(element: ChainElement): readonly [number, number] {
  if (element.kind !== 'gap' && element.kind !== 'relay') return [0, 0]
  return [
    Math.tan(coreValue(element.nearFaceAngle, 'faceAngle')),
    Math.tan(coreValue(element.farFaceAngle, 'faceAngle')),
  ]
}

type RelayShape = Pick<PathStop, 'stations' | 'lenses' | 'device'>

/** Depth of a spherical face at the rim, in units of half the aperture. */
function faceDepth(radiusUm: number, halfUm: number): number {
  if (!Number.isFinite(radiusUm) || halfUm <= 0) return 0
  const [steep, reach] = [Math.abs(radiusUm), Math.min(halfUm, Math.abs(radiusUm))]
  return (Math.sign(radiusUm) * (steep - Math.sqrt(steep * steep - reach * reach))) / halfUm
}

function relayShape({ path, lengthUm, lenses, device }: Evaluation['relays'][number]): RelayShape {
  const part = (zUm: number) => zUm / lengthUm
  return {
    stations: path.map(({ zUm, radiusXUm, radiusYUm, chiefXUm, chiefYUm }) => ({
      at: part(zUm),
      radiusXUm,
      radiusYUm,
      shiftX: chiefXUm / Math.max(radiusXUm, 1e-9),
      shiftY: chiefYUm / Math.max(radiusYUm, 1e-9),
    })),
    lenses: lenses.map((lens) => {
      const halfUm = lens.apertureDiameterUm / 2
      return {
        from: part(lens.frontZUm),
        to: part(lens.frontZUm + lens.thicknessUm),
        front: faceDepth(lens.frontRadiusUm, halfUm),
        back: faceDepth(lens.backRadiusUm, halfUm),
        x: { shift: lens.offsetXUm / halfUm, tiltRad: lens.tiltXRad },
        y: { shift: lens.offsetYUm / halfUm, tiltRad: lens.tiltYRad },
      }
    }),
    device:
      device === null
        ? null
        : { from: part(device.startZUm), to: part(device.startZUm + device.lengthUm), name: device.name },
  }
}

const PLAIN: RelayShape = { stations: [], lenses: [], device: null }

/** Guides and joins along the path. Elements that the evaluation does not know are omitted. */
export function pathStops(
  project: Project,
  { chain }: Candidate,
  evaluation: Evaluation,
): readonly PathStop[] {
  const guides = new Map(evaluation.guides.map((guide) => [guide.elementId, guide]))
  const channels = project.requirements.channels
  return chain.flatMap((element, at): readonly PathStop[] => {
    const { id, kind } = element
    const lossDb = evaluation.lines.reduce((sum, line) => sum + (line.elementId === id ? line.lossDb : 0), 0)
    const common = {
      id,
      kind,
      lossDb,
      share: SHARES[kind],
      ground: groundOf(project, element),
      faces: facesOf(element),
      isTip: false,
      channels: 1,
      shorter: [],
      lenses: [],
      device: null,
    }
    const lossText = `${fixedText(lossDb, 2)} dB`
    const own = guides.get(id)
    if (own !== undefined) {
      const [entry, exit] = [insideOf(own.entry), insideOf(own.exit)]
      const facet = kind === 'facet' ? byId(project.facets, element.facetId) : undefined
      const end =
        facet === undefined
          ? exit
          : { x: coreValue(facet.guideWidth, 'guideSize'), y: coreValue(facet.guideHeight, 'guideSize') }
      const taper = facet === undefined ? [0.1, 0.9] : [0.35, 0.95]
      const changes = Math.abs(entry.x - exit.x) > 0.005
      const size = changes ? `${um(entry.x, entry.y)} to ${um(exit.x, exit.y)}` : um(entry.x, entry.y)
      const stated = facet === undefined ? `MFD ${size}` : size
      return [
        {
          ...common,
          name: partName(project, element),
          detail: lossDb > 0.005 ? `${stated}, ${lossText}` : stated,
          shorter: lossDb > 0.005 ? [`${size.replace(' µm to', ' to')}, ${lossText}`, lossText] : [size],
          stations: transition(entry, end, taper[0], taper[1]),
          isTip: own.exit.tip !== undefined,
          channels,
        },
      ]
    }
    const before = guides.get(chain[at - 1]?.id ?? '')?.exit
    const behind = guides.get(chain[at + 1]?.id ?? '')?.entry
    const joint = evaluation.joints.find(({ elementId }) => elementId === id)
    const relay = evaluation.relays.find(({ elementId }) => elementId === id)
    if (relay !== undefined) {
      const name = `Relay × ${significantText(relay.magnification, 3)}`
      return [{ ...common, name, detail: lossText, ...relayShape(relay) }]
    }
    if (element.kind === 'gap' && joint !== undefined) {
      return [
        {
          ...common,
          ...PLAIN,
          name: `Gap ${valueText(element.gap)}`,
          detail: lossText,
          stations: gapStations(joint),
        },
      ]
    }
    if (before === undefined || behind === undefined) return []
    return [
      {
        ...common,
        name: element.kind === 'splice' ? 'Splice' : element.kind === 'relay' ? 'Relay' : 'Gap',
        detail: lossText,
        stations: transition(insideOf(before), insideOf(behind)),
      },
    ]
  })
}
