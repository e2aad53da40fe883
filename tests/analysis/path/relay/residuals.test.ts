// A member of a relay that a station aligns ends beside its best place by its own residual, whichever member it is.

import { expect, test } from 'vitest'
import { compileCandidate } from '../../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { RelayElement } from '../../../../src/model/schema/candidate'
import type { RelayMember } from '../../../../src/model/words/candidate'
import { familiesProject, relayElement } from '../../support/families'
import { um } from '../../support/realRelays'

const deg = (value: number) => quantityOf(value, 'deg')

/** Thin lenses off their foci, so that offsets and tilts work together; every member is off in its own way. */
function relayOf(change: (relay: RelayElement) => void) {
  const relay = relayElement({ device: undefined, frontGap: um(1040), backGap: um(290), stretch: um(4000) })
  Object.assign(relay, { offsetX: um(1.1), offsetY: um(-0.8), tiltX: deg(0.1), tiltY: deg(-0.15) })
  Object.assign(relay.lens1, { offsetX: um(-2), offsetY: um(3) })
  Object.assign(relay.lens2, { offsetX: um(1.4), offsetY: um(-0.6) })
  change(relay)
  const result = compileCandidate(familiesProject(relay), 'relay')
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  const { joins, nominal } = result.value
  const { joint } = joins[0]!.view!(nominal)
  const { lenses } = joins[0]!.relay!(nominal)
  return { joint, lenses, lossDb: joins[0]!.lossDb(nominal) }
}

test.each<RelayMember>(['guide', 'lens1', 'lens2'])('%s', (member) => {
  const own = (relay: RelayElement) => (member === 'guide' ? relay : relay[member])
  const [residualX, residualY] = [0.7, -0.4]
  const aligned = relayOf((relay) => {
    Object.assign(own(relay), {
      offsetX: um(residualX),
      offsetY: um(residualY),
      aligned: ['offsetX', 'offsetY'],
    })
  })
  /** The same placed there and not aligned. */
  const placed = (xUm: number, yUm: number) =>
    relayOf((relay) => {
      Object.assign(own(relay), { offsetX: um(xUm), offsetY: um(yUm) })
    })
  // Where the loss is least is found from three losses on each axis: it is a parabola.
  const vertex = (lossAt: (at: number) => number) => {
    const [below, here, above] = [lossAt(-1), lossAt(0), lossAt(1)]
    return (below - above) / (2 * (below + above - 2 * here))
  }
  const joint = (xUm: number, yUm: number) => placed(xUm, yUm).lossDb
  const [bestX, bestY] = [vertex((at) => joint(at, 0)), vertex((at) => joint(0, at))]
  const expected = placed(bestX + residualX, bestY + residualY)
  expect(aligned.joint.offsetXUm).toBeCloseTo(expected.joint.offsetXUm, 2)
  expect(aligned.joint.offsetYUm).toBeCloseTo(expected.joint.offsetYUm, 2)
  expect(aligned.lossDb).toBeCloseTo(expected.lossDb, 3)
  expect(aligned.lossDb).toBeGreaterThan(joint(bestX, bestY) + 1e-3)
})
