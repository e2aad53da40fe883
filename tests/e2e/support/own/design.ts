// A design of a saved project worked out once more for tests, apart from the app: fibres, tips by their spot, stubs, SSC chips,
// splices of stated loss, gaps, relays and a facet.

import type { Beam } from '../../../analysis/support/ownRelay'
import { ownCoreRadius } from './core'
import { ownGap } from './gap'
import { db, type OwnJoint, type Side, share } from './planes'
import { type Data, type Off, off, type Read, register, still } from './quantities'
import { ownRelayJoint } from './relay'

export interface OwnDesign {
  readonly names: readonly string[]
  readonly offs: readonly Off[]
  /** Loss of an assembly whose quantities deviate so, warmer by so much than at its alignment, dB. */
  readonly lossDb: (deviations: Float64Array, warmerK: number) => number
  /** Nominal return loss at both ends, powers added, faces flat and square, dB. */
  readonly returnLossDb: { readonly fibre: number; readonly chip: number }
  /** The nominal beam of a relay at the facet, in the x plane; null without a relay. */
  readonly image: Beam | null
  /** The warmest and the coldest place of its use, and its alignment, as the rise over the latter, K. */
  readonly risesK: readonly number[]
}

/** Handbook values, 1/K: borosilicate glass 3.3e-6, alumina 6.5e-6, silicon 2.6e-6 (from memory). */
const PER_KELVIN: Readonly<Record<string, number>> = {
  'borosilicate glass': 3.3e-6,
  alumina: 6.5e-6,
  silicon: 2.6e-6,
}

/** um per kelvin by which a mount raises the fibre side over the chip side. */
function mountRise(mount: Data): number {
  const stack = (layers: Data[]) =>
    layers.reduce((sum, { axis, length, expansion }) => {
      if (axis !== 'y') throw new Error('only heights here')
      return sum + off(length).value * (PER_KELVIN[expansion.material] ?? Number.NaN)
    }, 0)
  return stack(mount.fibreSide) - stack(mount.chipSide)
}

/** A place of the path: a joint, or a loss that light passes in either direction. */
type Position = OwnJoint | Read

export function ownDesign(project: Data, name: string): OwnDesign {
  const design = project.candidates.find((each: Data) => each.name === name)
  const part = (list: string, id: string) => project[list].find((each: Data) => each.id === id)
  const { wavelength, temperatureMin, temperatureMax } = project.requirements
  const wavelengthUm = off(wavelength).value
  const own = register(wavelengthUm)
  const { quantity, index } = own
  const half =
    (read: Read): Read =>
    (v) =>
      read(v) / 2
  const side = (x: Read, y: Read, of: Read, waistUm: Read = still(0)): Side => ({
    radiusX: half(x),
    radiusY: half(y),
    index: of,
    waistUm,
  })
  const fibre = ({ fibreId, tipId }: Data): Side => {
    const { mode, index: glass } = part('fibres', fibreId)
    const of = index(fibreId, glass)
    if (tipId !== undefined) {
      const { tip } = part('converters', tipId)
      const spot = quantity(`${tipId} spot`, tip.spotX)
      return side(spot, spot, of, quantity(`${tipId} focus`, tip.workingDistance))
    }
    if (mode.kind === 'mfd') {
      const mfd = quantity(`${fibreId} MFD`, mode.mfdX)
      return side(mfd, mfd, of)
    }
    const [core, na] = [quantity(`${fibreId} core`, mode.coreDiameter), quantity(`${fibreId} NA`, mode.na)]
    const mfd: Read = (v) => 2 * ownCoreRadius(core(v) / 2, na(v), wavelengthUm)
    return side(mfd, mfd, of)
  }
  const chip = (id: string, end: 'input' | 'output'): Side => {
    const found = part('converters', id)
    const mfd = (axis: string) => quantity(`${id} ${end} ${axis}`, found[`${end}Mfd${axis}`])
    return side(mfd('X'), mfd('Y'), index(id, found.index))
  }
  const entry = (element: Data): Side => {
    if (element.kind === 'taper chip') return chip(element.converterId, 'input')
    const { mfdX, mfdY, index: of, id } = part('facets', element.facetId)
    return side(quantity(`${id} MFD x`, mfdX), quantity(`${id} MFD y`, mfdY), index(id, of))
  }
  const positions: Position[] = []
  let near: Side | null = null
  let image: ((v: Float64Array) => Beam) | null = null
  for (const [at, element] of design.chain.entries()) {
    if (element.kind === 'fibre' || element.kind === 'stub') near = fibre(element)
    if (element.kind === 'splice') positions.push(quantity('splice', element.loss))
    if (element.kind === 'taper chip') {
      const { id, transmissionLoss } = part('converters', element.converterId)
      positions.push(quantity(`${id} loss`, transmissionLoss))
      near = chip(id, 'output')
    }
    if (element.kind === 'facet') {
      const { taperLoss, substrateLeakage } = part('facets', element.facetId)
      positions.push(quantity('taper', taperLoss), quantity('leakage', substrateLeakage))
    }
    if (element.kind !== 'gap' && element.kind !== 'relay') continue
    const sides = [near as Side, entry(design.chain[at + 1])] as const
    if (element.kind === 'gap') {
      positions.push(ownGap(own, element, part('media', element.mediumId), sides, wavelengthUm))
      continue
    }
    const lenses = [part('lenses', element.lens1Id), part('lenses', element.lens2Id)] as const
    const relay = ownRelayJoint(own, element, lenses, sides, wavelengthUm)
    positions.push(relay)
    image = relay.image
  }
  const risePerK = design.mount === undefined ? 0 : mountRise(design.mount)
  const held = positions.findLastIndex((position) => typeof position !== 'function')
  const passDb = (v: Float64Array, at: number, warmerK: number): number => {
    const position = positions[at]
    if (position === undefined) return 0
    // The mount holds the joint at the chip; earlier ones ride along.
    return typeof position === 'function'
      ? position(v)
      : position.lossDb(v, at === held ? warmerK * risePerK : 0, warmerK)
  }
  const lossDb = (v: Float64Array, warmerK: number) =>
    positions.reduce((sum, _, at) => sum + passDb(v, at, warmerK), 0)
  const rest = new Float64Array(own.offs.length)
  const echo = (port: 'toFibre' | 'toChip') =>
    db(
      positions.reduce((sum, position, at) => {
        if (typeof position === 'function') return sum
        const before = positions.reduce(
          (loss, _, i) => loss + ((port === 'toFibre' ? i < at : i > at) ? passDb(rest, i, 0) : 0),
          0,
        )
        return sum + share(2 * before) * position.echoes(rest)[port]
      }, 0),
    )
  const alignedC = design.mount === undefined ? 23 : off(design.mount.assemblyTemperature).value
  return {
    names: own.names,
    offs: own.offs,
    lossDb,
    image: image === null ? null : (image as (v: Float64Array) => Beam)(rest),
    get returnLossDb() {
      return { fibre: echo('toFibre'), chip: echo('toChip') }
    },
    risesK: [off(temperatureMin).value - alignedC, 0, off(temperatureMax).value - alignedC],
  }
}
