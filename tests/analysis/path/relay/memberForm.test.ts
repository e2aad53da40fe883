// The form of a member's pose against the exact joint of the moved relay: relayState.test.ts holds that against rays and beams.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  bestMove,
  emptyForm,
  fillMemberForm,
  fillMemberLoss,
} from '../../../../src/analysis/path/relay/memberForm'
import {
  newRelayRecord,
  type RelayGeometry,
  type RelayRecord,
  relayRecordOf,
} from '../../../../src/analysis/path/relay/relayGeometry'
import { atReceiver, relayJoint, relayState } from '../../../../src/analysis/path/relay/relayOptics'
import { RELAY_MEMBERS, type RelayMember } from '../../../../src/model/words/candidate'
import { jointEfficiency, thickLens } from '../../../../src/optics/index'
import { uniform } from '../../../support/arbitrary'

const lens1 = thickLens({ index: 1.5, frontRadiusUm: 900, backRadiusUm: -500, thicknessUm: 300 })
const lens2 = thickLens({ index: 1.45, frontRadiusUm: 300, backRadiusUm: -400, thicknessUm: 150 })

/** Any relay near its focus, with every number of it away from 0. */
const relays = fc
  .record({
    waistXUm: uniform(-8, 8),
    waistYUm: uniform(-8, 8),
    roll: uniform(-0.6, 0.6),
    frontGapUm: uniform(540, 600),
    backGapUm: uniform(290, 330),
    stretchUm: uniform(1500, 4000),
    places: fc.array(uniform(-1, 1), { minLength: 14, maxLength: 14 }),
  })
  .map(({ roll, places, ...own }): RelayRecord => {
    const at = (i: number) => places[i] ?? 0
    const pose = (from: number) => ({
      ...{ offsetXUm: 2 * at(from), offsetYUm: 2 * at(from + 1), offsetZUm: 3 * at(from + 4) },
      ...{ tiltXRad: 0.01 * at(from + 2), tiltYRad: 0.01 * at(from + 3) },
    })
    return {
      ...newRelayRecord(),
      ...{ wavelengthUm: 1.55, mediumIndex: 1.02, rollRad: roll, deviceLengthUm: 700, deviceIndex: 1.6 },
      ...{ emitterMfdXUm: 9, emitterMfdYUm: 6, receiverMfdXUm: 4, receiverMfdYUm: 5, leastBackUm: 0 },
      ...own,
      ...{ offsetXUm: at(10), offsetYUm: at(11), tiltXRad: 0.005 * at(12), tiltYRad: 0.005 * at(13) },
      lens1: { matrix: lens1, thicknessUm: 300, ...pose(0) },
      lens2: { matrix: lens2, thicknessUm: 150, ...pose(5) },
    }
  })

const exactDb = (g: RelayGeometry) =>
  -10 * Math.log10(jointEfficiency(atReceiver(relayJoint(g, relayState(g)))))

function moved(g: RelayGeometry, member: RelayMember, u: ArrayLike<number>): RelayRecord {
  const to = relayRecordOf(g)
  const part = member === 'guide' ? to : to[member]
  part.offsetXUm += u[0] as number
  part.offsetYUm += u[1] as number
  part.tiltXRad += u[2] as number
  part.tiltYRad += u[3] as number
  return to
}

const moves = fc.tuple(uniform(-2, 2), uniform(-2, 2), uniform(-0.01, 0.01), uniform(-0.01, 0.01))

describe.each(RELAY_MEMBERS)('the form of the pose of %s', (member) => {
  test('is the loss of the moved relay, exactly', () => {
    fc.assert(
      fc.property(relays, moves, (g, u) => {
        const form = emptyForm()
        fillMemberLoss(g, member, form)
        expect(form.lossDb).toBeCloseTo(exactDb(g), 7)
        let change = 0
        for (let i = 0; i < 4; i++) {
          change += 2 * (form.slopeDb[i] as number) * (u[i] as number)
          for (let j = 0; j < 4; j++)
            change += (form.curvatureDb[4 * i + j] as number) * (u[i] as number) * (u[j] as number)
        }
        expect(form.lossDb + change).toBeCloseTo(exactDb(moved(g, member, u)), 6)
      }),
      { numRuns: 40 },
    )
  })

  test('leads to the lowest loss in the axes that are free, and leaves the others', () => {
    const free = fc.array(fc.boolean(), { minLength: 4, maxLength: 4 })
    fc.assert(
      fc.property(relays, free, moves, (g, which, step) => {
        const form = emptyForm()
        const move = new Float64Array(4)
        fillMemberForm(g, member, form)
        const gainDb = bestMove(form, which, move)
        which.forEach((isFree, i) => {
          if (!isFree) expect(move[i]).toBe(0)
        })
        const best = exactDb(moved(g, member, move))
        // Moves that gain next to nothing are held back: 1e-9 dB for the square of an um, 1e-3 dB for that of a radian.
        const heldBackDb = move.reduce((sum, each, i) => sum + (i < 2 ? 1e-9 : 1e-3) * each * each, 0)
        expect(exactDb(g) - best).toBeCloseTo(gainDb + heldBackDb, 6)
        // A step away in the free axes costs something.
        const beside = moved(
          g,
          member,
          move.map((each, i) => each + (which[i] ? (step[i] ?? 0) : 0)),
        )
        expect(exactDb(beside)).toBeGreaterThanOrEqual(best - heldBackDb - 1e-7)
      }),
      { numRuns: 40 },
    )
  })
})

test('a ball is not tilted about its middle, which steers no light', () => {
  const ball = thickLens({ index: 1.5, frontRadiusUm: 250, backRadiusUm: -250, thicknessUm: 500 })
  const inPlace = { offsetXUm: 0, offsetYUm: 0, offsetZUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const lens = { matrix: ball, thicknessUm: 500, ...inPlace }
  const g = relayRecordOf({
    ...newRelayRecord(),
    ...{ wavelengthUm: 1.55, mediumIndex: 1, rollRad: 0, deviceLengthUm: 0, deviceIndex: 1 },
    ...{ emitterMfdXUm: 9, emitterMfdYUm: 9, receiverMfdXUm: 9, receiverMfdYUm: 9, leastBackUm: 0 },
    ...{ waistXUm: 0, waistYUm: 0, offsetXUm: 1, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 },
    ...{ frontGapUm: 125, stretchUm: 1000, backGapUm: 125 },
    lens1: { ...lens },
    lens2: { ...lens },
  })
  const form = emptyForm()
  const move = new Float64Array(4)
  fillMemberForm(g, 'lens1', form)
  bestMove(form, [false, false, true, true], move)
  expect(Math.abs(move[2] ?? 1)).toBeLessThan(1e-6)
  expect(Math.abs(move[3] ?? 1)).toBeLessThan(1e-6)
})
