// The relays of reference/data/recipes/relay_tolerances.py as designs.

import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import type reference from '../../reference/data/relay-tolerances.json'
import { realRelayProject, relays, um } from './realRelays'

export type ToleranceRow = (typeof reference.rows)[number]
type Row = Pick<
  ToleranceRow,
  'lens1' | 'lens2' | 'gapsUm' | 'nearMfdUm' | 'farMfdUm' | 'stretchUm' | 'plusMinus'
>

const rad = (deg: number) => (deg * Math.PI) / 180
export const endsOf = ({ plusMinus: by }: Row) => [
  ...[by.offsetUm, by.offsetUm, rad(by.tiltDeg), rad(by.tiltDeg), by.frontUm, by.backUm],
  ...[by.lens1Um, by.lens1Um, rad(by.lens1Deg), rad(by.lens1Deg)],
  ...[by.lens2Um, by.lens2Um, rad(by.lens2Deg), rad(by.lens2Deg)],
]

/** The row as a design; nothing moves in it but its fourteen quantities. */
export function designOf(row: Row): Project {
  const [frontGapUm = 0, backGapUm = 0] = row.gapsUm
  const [known] = relays
  if (known === undefined) throw new Error('a row')
  const made = realRelayProject({
    ...known,
    lens1: { ...row.lens1, kind: 'plano-convex' },
    lens2: { ...row.lens2, kind: 'plano-convex' },
    nearMfdUm: row.nearMfdUm,
    farMfdUm: [row.farMfdUm, row.farMfdUm],
    stretchUm: row.stretchUm,
    device: { lengthUm: 500, index: 1.5 },
    frontGapUm,
    backGapUm,
  })
  const project: Project = JSON.parse(
    JSON.stringify(made, (name, value) => (name === 'tolerance' ? undefined : value)),
  )
  project.requirements.channels = 1
  // The recipe has an index of 1 between the lenses.
  for (const medium of project.media)
    if (medium.id === 'air') medium.index = { kind: 'value', index: quantityOf(1, '1') }
  for (const [i, { conic }] of [row.lens1, row.lens2].entries()) {
    const shape = project.lenses[i]?.shape
    if (shape?.kind === 'plano-convex') shape.conic = conic
  }
  const candidate = project.candidates.find(({ id }) => id === 'relay')
  const relay = candidate?.chain[1]
  if (candidate === undefined || relay?.kind !== 'relay') throw new Error('a relay')
  candidate.mount = undefined
  const about = (
    value: number,
    unit: 'um' | 'deg',
    plusMinus: number,
    distribution: 'normal' | 'uniform',
  ) => ({
    ...quantityOf(value, unit),
    tolerance: { plusMinus, distribution },
  })
  const { plusMinus: by } = row
  const posed = (offsetUm: number, tiltDeg: number) => ({
    aligned: [],
    offsetX: about(0, 'um', offsetUm, 'normal'),
    offsetY: about(0, 'um', offsetUm, 'normal'),
    tiltX: about(0, 'deg', tiltDeg, 'normal'),
    tiltY: about(0, 'deg', tiltDeg, 'normal'),
  })
  Object.assign(relay, {
    ...posed(by.offsetUm, by.tiltDeg),
    frontGap: about(frontGapUm, 'um', by.frontUm, 'uniform'),
    backGap: about(backGapUm, 'um', by.backUm, 'uniform'),
    stretch: um(row.stretchUm),
    bondShift: undefined,
    drift: undefined,
  })
  Object.assign(relay.lens1, posed(by.lens1Um, by.lens1Deg))
  Object.assign(relay.lens2, posed(by.lens2Um, by.lens2Deg))
  return project
}
