// What is said about the aberration of a relay, and what its pictures start from, on numbers that are set here.

import { describe, expect, test } from 'vitest'
import { aberrationNotes } from '../../../../src/analysis/path/relay/aberrationNotes'
import { lensesInLight } from '../../../../src/analysis/path/relay/lensesInLight'
import type { RelayAberration } from '../../../../src/analysis/path/relay/relayAberration'
import { newRelayRecord } from '../../../../src/analysis/path/relay/relayGeometry'
import { relayState } from '../../../../src/analysis/path/relay/relayOptics'
import type { RelayReader } from '../../../../src/analysis/path/relay/relayReader'
import { FLAT_FACE, sphericalFace, thinLens } from '../../../../src/optics/index'

describe('a relay', () => {
  const lens = (name: string, isReal: boolean) => ({ lens: { name }, real: isReal ? () => ({}) : null })
  const readerOf = (first: boolean, second: boolean, names = ['A', 'B']) =>
    ({ lens1: lens(names[0] ?? '', first), lens2: lens(names[1] ?? '', second) }) as unknown as RelayReader
  const aberration = (nominal: object | null = {}) =>
    ({
      nominal: () => nominal,
      qualities: () => [{ rmsUm: 0.0314, strehl: 0.985 }, null],
      moves: () => 'Moved.',
    }) as unknown as RelayAberration

  test('of lenses known by their focal length is assumed free of aberration, each lens named once', () => {
    const said = (first: boolean, second: boolean, names?: string[]) =>
      aberrationNotes('relay', readerOf(first, second, names), null, 0).map(
        ({ message }) => message.split(': ')[0],
      )
    expect(said(false, false)).toEqual(['A; B'])
    expect(said(false, false, ['A', 'A'])).toEqual(['A'])
    expect(said(true, false)).toEqual(['B'])
    expect(said(true, true)).toEqual([])
  })

  test('is cautioned beyond 0.1 dB, and said to be better or worse than paraxial optics', () => {
    const at = (differenceDb: number) =>
      aberrationNotes('relay', readerOf(true, true), aberration(), differenceDb)[0]
    expect(at(0.1)).toEqual({
      elementId: 'relay',
      message:
        'Aberration: ray tracing through the real lenses shows the joint to be 0.10 dB worse than in paraxial optics (A: 0.031 µm rms, Strehl ratio 0.985 at best focus). Moved.',
    })
    expect(at(0.11)).toMatchObject({ caution: true })
    expect(at(0.11)?.message).toContain('Apply the optimum distances')
    expect(at(-0.5)?.message).toContain('0.50 dB better than')
    expect(at(-0.5)?.caution).toBeUndefined()
    expect(aberrationNotes('relay', readerOf(true, true), aberration(null), 0)).toMatchObject([
      { caution: true, message: expect.stringContaining('no ray passes') },
    ])
  })
})

test('pictures start from both guides, with lens 2 as its own guide sees it and as light meets it', () => {
  const shape = {
    ...{ index: 1.5, mediumIndex: 1, thicknessUm: 100 },
    ...{ first: FLAT_FACE, last: sphericalFace(-300) },
  }
  const pose = { offsetZUm: 0, thicknessUm: 100 }
  const geometry = {
    ...newRelayRecord(),
    ...{
      wavelengthUm: 1.55,
      mediumIndex: 1,
      emitterMfdXUm: 8,
      emitterMfdYUm: 2,
      receiverMfdXUm: 3,
      receiverMfdYUm: 5,
    },
    ...{ waistXUm: 6, waistYUm: 2, offsetXUm: 1, offsetYUm: -2, tiltXRad: 0.01, tiltYRad: -0.02 },
    ...{
      frontGapUm: 500,
      stretchUm: 2000,
      backGapUm: 300,
      leastBackUm: 0,
      deviceLengthUm: 0,
      deviceIndex: 1,
    },
    lens1: { matrix: thinLens(500), ...pose, offsetXUm: 3, offsetYUm: 4, tiltXRad: 0.1, tiltYRad: 0.2 },
    lens2: {
      matrix: { a: 0.9, b: 50, c: -0.003, d: 0.95 },
      ...pose,
      offsetXUm: 5,
      offsetYUm: 6,
      tiltXRad: 0.3,
      tiltYRad: 0.4,
    },
  }
  const found = lensesInLight('relay', geometry, relayState(geometry), [null, shape], ['A', 'B'])
  expect(found.chief).toEqual({
    x: { heightUm: 1 + 500 * 0.01, slopeRad: 0.01 },
    y: { heightUm: -2 - 500 * 0.02, slopeRad: -0.02 },
  })
  expect([found.receiverRadiusXUm, found.receiverRadiusYUm, found.stretchUm, found.backGapUm]).toEqual([
    1.5, 2.5, 2000, 300,
  ])
  // Round modes of the geometric mean; the waist lies 4 um on, on the mean of both axes.
  expect(found.near.mode).toMatchObject({ waistRadiusUm: 2, distanceUm: 496 })
  expect(found.far.mode.waistRadiusUm).toBeCloseTo(Math.sqrt(15) / 2, 12)
  expect(found.far.mode.distanceUm).toBe(300)
  expect(found.first).toMatchObject({ offsetXUm: 3, offsetYUm: 4, tiltXRad: 0.1, tiltYRad: 0.2, shape: null })
  // Against the axis slopes turn round, and the matrix runs backwards.
  expect(found.second).toMatchObject({ offsetXUm: 5, offsetYUm: 6, tiltXRad: -0.3, tiltYRad: -0.4 })
  expect(found.second.matrix).toEqual({ a: 0.95, b: 50, c: -0.003, d: 0.9 })
  expect(found.onward).toMatchObject({ tiltXRad: 0.3, tiltYRad: 0.4, matrix: geometry.lens2.matrix })
  expect([found.second.shape?.first.radiusUm, found.second.shape?.last.radiusUm]).toEqual([
    FLAT_FACE.radiusUm,
    -300,
  ])
  expect(found.onward.shape?.first.radiusUm).toBe(300)
  expect(Math.abs(found.onward.shape?.last.radiusUm ?? 0)).toBe(Number.POSITIVE_INFINITY)
})
