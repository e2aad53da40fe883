// Reflections of a path of three joins with stated losses: everything before a face is passed twice, summed by hand.

import { describe, expect, test } from 'vitest'
import { chainReflections, totalReturns } from '../../../src/analysis/light/chainReflections'
import type { CompiledCandidate } from '../../../src/analysis/path/compileCandidate'
import type { ChainReflection, FaceReflection } from '../../../src/analysis/results/lightResults'

const face = (intoNearDb: number | null, intoFarDb: number | null) =>
  ({ intoNearDb, intoFarDb }) as FaceReflection
const join = (lossDb: number, faces: readonly FaceReflection[], isolationDb?: number) => ({
  lossDb: () => lossDb,
  reflections: () => faces,
  ...(isolationDb !== undefined && { isolationDb: () => isolationDb }),
})

test('a face is seen through what lies before it, there and back; an isolator once', () => {
  const compiled = {
    guideLossesDb: [0.1, 0.2, 0.4].map((lossDb) => () => lossDb),
    joins: [join(1, [face(30, 31), face(32, null)]), join(2, [face(40, 41)], 25), join(4, [face(null, 50)])],
    lastGuideLossDb: () => 0.8,
  } as unknown as CompiledCandidate
  const seen = chainReflections(compiled, new Float64Array(0)).map(({ atFibreDb, atChipDb }) => [
    atFibreDb,
    atChipDb,
  ])
  const close = (value: number) => expect.closeTo(value, 12)
  expect(seen).toEqual([
    // Towards the chip: joins of 2 and 4 dB and guides of 0.2, 0.4 and 0.8 dB twice, and 25 dB once.
    [close(30 + 0.2), close(31 + 2 * (2 + 4 + 0.2 + 0.4 + 0.8) + 25)],
    [close(32 + 0.2), null],
    [close(40 + 2 * (0.1 + 0.2 + 1)), close(41 + 2 * (4 + 0.4 + 0.8))],
    [null, close(50 + 2 * 0.8)],
  ])
})

describe('the total at one end', () => {
  const of = (...faces: readonly (readonly [lossDb: number | null, atMost?: boolean])[]) =>
    totalReturns(
      faces.map(([atFibreDb, atMost]) => ({ atFibreDb, atChipDb: null, atMost }) as ChainReflection),
    )

  test('adds powers, and amplitudes where all are in phase', () => {
    // Two faces of 30 dB: 26.99 dB together, 23.98 dB in phase.
    expect(of([30], [30]).fibre).toEqual({
      incoherentDb: expect.closeTo(30 - 10 * Math.log10(2), 12),
      coherentDb: expect.closeTo(30 - 20 * Math.log10(2), 12),
      atLeast: false,
      atMostDb: expect.closeTo(30 - 10 * Math.log10(2), 12),
    })
    expect(of([20], [40], [null]).fibre.incoherentDb).toBeCloseTo(-10 * Math.log10(0.01 + 0.0001), 12)
    expect(of([20], [40]).fibre.coherentDb).toBeCloseTo(-20 * Math.log10(0.1 + 0.01), 12)
    // Never more than all of the light.
    expect(of([3], [3], [3]).fibre.coherentDb).toBe(0)
    expect(of([null]).fibre).toEqual({ incoherentDb: null, coherentDb: null, atLeast: false, atMostDb: null })
    expect(of([30]).chip.incoherentDb).toBeNull()
  })

  test('is at least so much where a face of unknown shape changes it by 0.005 dB, and at most what the others return', () => {
    const unknown = of([30], [35, true]).fibre
    expect(unknown.atLeast).toBe(true)
    expect(unknown.atMostDb).toBeCloseTo(30, 12)
    // 10 log10(1 + r) = 0.005 for r = 0.00115: 29.39 dB below the others.
    expect(of([30], [59.3, true]).fibre.atLeast).toBe(true)
    expect(of([30], [59.5, true]).fibre.atLeast).toBe(false)
    expect(of([30, true]).fibre).toMatchObject({ atLeast: true, atMostDb: null })
  })
})
