import { describe, expect, test } from 'vitest'
import {
  type BlockChannel,
  type BlockPosition,
  channelLossDb,
} from '../../../src/analysis/array/blockChannel'
import { channelDisplacement, rollForLossRad } from '../../../src/analysis/array/blockGeometry'
import { placeBlock } from '../../../src/analysis/array/placeBlock'
import { ARRAY_AIMS, type ArrayAim } from '../../../src/model/words/fibreArray'
import { unitPoints } from '../../../src/numerics/random/unitPoints'
import { jointEfficiency, lossDb, misalignmentForm } from '../../../src/optics/index'
import { MATCHED } from '../../optics/joint/jointCases'

/** Channels with their best points scattered by up to `spreadUm`. */
function channels(count: number, spreadUm: number, seed: number): readonly BlockChannel[] {
  const points = unitPoints('random', 5, seed)
  const u = new Float64Array(5)
  return Array.from({ length: count }, (_, i) => {
    points.point(i, u)
    const [a = 0, b = 0, c = 0, d = 0, e = 0] = u
    return {
      alongUm: (i - (count - 1) / 2) * 127,
      leastDb: a,
      a11: 0.8 + b,
      a12: 0.4 * (c - 0.5),
      a22: 0.8 + c,
      bestXUm: spreadUm * (d - 0.5),
      bestYUm: spreadUm * (e - 0.5),
    }
  })
}

/** What the aim makes as small as it can, dB. */
function aimed(all: readonly BlockChannel[], aim: ArrayAim, position: BlockPosition): number {
  const watched = aim === 'outer two' ? [all[0], all.at(-1)] : all
  const losses = watched.map((channel) => channelLossDb(channel as BlockChannel, position))
  return aim === 'worst channel'
    ? Math.max(...losses)
    : -10 * Math.log10(losses.reduce((sum, loss) => sum + 10 ** (-loss / 10), 0) / losses.length)
}

const ALL = { x: true, y: true, roll: true }

describe.each(ARRAY_AIMS.map((aim) => ({ aim })))('placing for $aim', ({ aim }) => {
  test.each([1, 2, 3, 4, 5])('no place of a fine grid is better, turned or not (scatter %i)', (seed) => {
    const all = channels(12, 1.2, seed)
    for (const turns of [false, true]) {
      const best = placeBlock(all, aim, { x: true, y: true, roll: turns })
      const reached = aimed(all, aim, best)
      const allowance = aim === 'worst channel' ? Math.log(12) / 400 + 0.005 : 1e-6
      for (let i = -6; i <= 6; i++) {
        for (let j = -6; j <= 6; j++) {
          for (const roll of turns ? [-4e-4, -1e-4, 0, 1e-4, 4e-4] : [0]) {
            const near = { xUm: best.xUm + i * 0.05, yUm: best.yUm + j * 0.05, rollRad: best.rollRad + roll }
            expect(aimed(all, aim, near)).toBeGreaterThan(reached - allowance)
            const far = { xUm: i * 0.15, yUm: j * 0.15, rollRad: roll }
            expect(aimed(all, aim, far)).toBeGreaterThan(reached - allowance)
          }
        }
      }
    }
  })

  test('a block that is rolled as a whole is turned back', () => {
    const rolled = channels(12, 0, 9).map((channel) => ({ ...channel, bestYUm: 0.003 * channel.alongUm }))
    const { xUm, yUm, rollRad } = placeBlock(rolled, aim, ALL)
    expect(rollRad).toBeCloseTo(0.003, 5)
    expect(Math.hypot(xUm, yUm)).toBeLessThan(0.01)
  })

  test('where one channel outweighs all others, the rest of the block is not left out in the dark', () => {
    const all = channels(12, 1.2, 6).map((channel, i) => ({ ...channel, leastDb: i === 11 ? 30 : 0 }))
    const position = placeBlock(all, aim, ALL)
    const others = all.slice(0, 11).map((channel) => channelLossDb(channel, position))
    // Offsets of 1.2 um and no more: any place between the channels' best points costs less than 6 dB.
    if (aim !== 'outer two') expect(Math.max(...others)).toBeLessThan(6)
    if (aim === 'worst channel') expect(channelLossDb(all[11] as BlockChannel, position)).toBeLessThan(30.02)
  })

  test('one channel goes to its own best', () => {
    const [only] = channels(1, 3, 4)
    const position = placeBlock([only as BlockChannel], aim, ALL)
    expect(position.xUm).toBeCloseTo(only?.bestXUm ?? 9, 5)
    expect(position.yUm).toBeCloseTo(only?.bestYUm ?? 9, 5)
  })
})

test.each(['sum of all', 'outer two'] as const)(
  'placed for %s, no step of 2 nm is better, nor a turn that moves the outer channels as far',
  (aim) => {
    const all = channels(8, 2, 11)
    const best = placeBlock(all, aim, ALL)
    const reached = aimed(all, aim, best)
    for (const [xUm, yUm, rollRad] of [
      [0.002, 0, 0],
      [-0.002, 0, 0],
      [0, 0.002, 0],
      [0, -0.002, 0],
      [0, 0, 4e-6],
      [0, 0, -4e-6],
    ] as const) {
      const moved = { xUm: best.xUm + xUm, yUm: best.yUm + yUm, rollRad: best.rollRad + rollRad }
      expect(aimed(all, aim, moved)).toBeGreaterThan(reached)
    }
  },
)

// Rigid rotation: the outer fibres of N at pitch p move by (N - 1) / 2 * p * sin(roll).
describe('the geometry of a block', () => {
  const still = { nearPitchUm: 250, farPitchUm: 250, rollRad: 0, tiltXRad: 0, bowUm: 0 }
  test('12 fibres at 250 um rolled by 0.1 degrees lift the outer ones by 2.40 um', () => {
    const rolled = { ...still, rollRad: 0.1 * (Math.PI / 180) }
    expect(channelDisplacement(11, 12, rolled).yUm).toBeCloseTo(2.4, 3)
    expect(channelDisplacement(0, 12, rolled).yUm).toBeCloseTo(-2.4, 3)
    expect(channelDisplacement(11, 12, rolled).yUm).toBeCloseTo(5.5 * 250 * Math.sin(rolled.rollRad), 12)
  })
  test('a pitch that is 0.1 um too long puts the outer fibres 0.55 um out', () => {
    expect(channelDisplacement(11, 12, { ...still, nearPitchUm: 250.1 }).xUm).toBeCloseTo(0.55, 9)
  })
  test('a tilt along the row opens the gap at one end and closes it at the other', () => {
    const tilted = { ...still, tiltXRad: 0.002 }
    expect(channelDisplacement(11, 12, tilted).zUm).toBeCloseTo(2.75, 4)
    expect(channelDisplacement(0, 12, tilted).zUm).toBeCloseTo(-2.75, 4)
  })
  test('a bow lifts the outer fibres by its height and the middle by nothing', () => {
    const bowed = { ...still, bowUm: 0.8 }
    expect(channelDisplacement(0, 11, bowed).yUm).toBeCloseTo(0.8, 12)
    expect(channelDisplacement(5, 11, bowed).yUm).toBe(0)
  })
  test('the roll for 1 dB puts the outer channel exactly 1 dB down', () => {
    const form = { curvatureDb: misalignmentForm(MATCHED).curvatureDb, slopeDb: new Float64Array(4) }
    const roll = rollForLossRad(form, 12, 127, 1) ?? 0
    const offsetYUm = channelDisplacement(11, 12, { ...still, nearPitchUm: 127, rollRad: roll }).yUm
    expect(lossDb(jointEfficiency({ ...MATCHED, offsetYUm }))).toBeCloseTo(1, 9)
    // 1 dB at MFD 10.4 um is 2.49523 um (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
    expect(offsetYUm).toBeCloseTo(2.49523, 5)
    expect(rollForLossRad(form, 1, 127, 1)).toBeNull()
  })
})
