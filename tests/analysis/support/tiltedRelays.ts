// Relays of conic, aspheric and ball lenses that are decentred and tilted. Outside values: three-dimensional ray vectors through the tilted
// surfaces, a Hankel integral before and an angular spectrum behind them (reference/data/recipes/tilted_relays.py).

import { readFileSync } from 'node:fs'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { LensShapeEntry } from '../../../src/model/schema/parts'
import { type RealRelayRow, realRelayProject, relays, um } from './realRelays'

type Lens = Readonly<{ kind: 'ball' | 'plano-convex'; index: number }> & Readonly<Record<string, unknown>>
export interface TiltedRelay {
  readonly lens1: Lens
  readonly lens2: Lens
  readonly gapsUm: readonly [number, number]
  readonly guideUm?: readonly [number, number]
  readonly lens1Um?: readonly [number, number]
  readonly lens2Um?: readonly [number, number]
  readonly tilt1Deg?: number
  readonly tilt2Deg?: number
  readonly lossDb: number
}
export const { cases } = JSON.parse(
  readFileSync(new URL('../../reference/data/tilted-relays.json', import.meta.url), 'utf8'),
) as { cases: readonly TiltedRelay[] }

const JOINT = new Set(['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll', 'combined', 'aberration'])
const CENTRED = [0, 0] as const

/** The lens as a user enters it: aspheric terms in 1/mm^3, 1/mm^5. */
function shapeOf(lens: Lens): LensShapeEntry {
  if (lens.kind === 'ball') return { kind: 'ball', diameter: um(Number(lens.diameterUm)) }
  return {
    kind: 'plano-convex',
    radius: um(Number(lens.radiusUm)),
    thickness: um(Number(lens.thicknessUm)),
    conic: Number(lens.conic),
    ...(Array.isArray(lens.aspheric) && { aspheric: lens.aspheric }),
  }
}

/** Mode overlap of the joint by the program, dB. */
export function tiltedRelayDb({ lens1, lens2, gapsUm, ...moved }: TiltedRelay): number {
  const [row] = relays
  if (row === undefined) throw new Error('a row')
  const project = realRelayProject({
    ...row,
    lens1: lens1 as RealRelayRow['lens1'],
    lens2: lens2 as RealRelayRow['lens2'],
    farMfdUm: [4, 4],
    stretchUm: 2000,
    frontGapUm: gapsUm[0],
    backGapUm: gapsUm[1],
  })
  const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
  if (relay?.kind !== 'relay') throw new Error('a relay')
  for (const [i, lens] of [lens1, lens2].entries()) {
    const entry = project.lenses[i]
    if (entry !== undefined) entry.shape = shapeOf(lens)
  }
  for (const [slot, [x, y]] of [
    [relay, moved.guideUm ?? CENTRED],
    [relay.lens1, moved.lens1Um ?? CENTRED],
    [relay.lens2, moved.lens2Um ?? CENTRED],
  ] as const) {
    slot.offsetX = um(x)
    slot.offsetY = um(y)
  }
  relay.lens1.tiltX = quantityOf(moved.tilt1Deg ?? 0, 'deg')
  relay.lens2.tiltX = quantityOf(moved.tilt2Deg ?? 0, 'deg')
  return evaluateCandidate(project, 'relay')
    .lines.filter((line) => line.elementId === 'relay' && JOINT.has(line.kind))
    .reduce((sum, line) => sum + line.lossDb, 0)
}
