// Tolerances of the demo's relay through its real lenses. A chip that is displaced by hand is the same as fibre and lenses that are displaced
// against it, each entered in the project and compiled anew; the paraxial image is not.

import { describe, expect, onTestFinished, test } from 'vitest'
import { viewChipWindow } from '../../../src/analysis/compare/chipWindows'
import { offsetExcess } from '../../../src/analysis/compare/offsetExcess'
import { displacedLosses } from '../../../src/analysis/field/displacedLosses'
import { fieldWindows } from '../../../src/analysis/field/fieldWindows'
import { answerSteps } from '../../../src/analysis/field/fit/fitHere'
import { type FieldRequest, fitElsewhere, learnAnswer } from '../../../src/analysis/field/fit/knownFits'
import { mirrored } from '../../../src/analysis/field/mirroredPoses'
import { relayHereDb, relayLossOf } from '../../../src/analysis/field/relayLoss'
import { relayLossSteps, relayToleranceSteps } from '../../../src/analysis/field/relayTolerance'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import { demoProject } from '../../../src/model/index'
import { coreValue } from '../../../src/model/quantity/quantity'
import type { RelayElement } from '../../../src/model/schema/candidate'
import { finish } from '../../../src/numerics/steps'
import { type GaussianJoint, jointLossDb } from '../../../src/optics/index'
import { um } from '../support/realRelays'
import '../../support/fitsHere'

/** The relay of the demo, changed by hand. */
function relay(change: (element: RelayElement) => void = () => {}, wavelengthNm?: number) {
  const project = demoProject()
  if (wavelengthNm !== undefined) project.requirements.wavelength.value = wavelengthNm
  const element = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
  if (element?.kind !== 'relay') throw new Error('a relay')
  change(element)
  const compiled = compileCandidate(project, 'relay')
  if (!compiled.ok) throw new Error('not computed')
  const { joins, nominal, lossDb } = compiled.value
  const join = joins.find(({ relayFields }) => relayFields !== undefined)
  const [view, lenses] = [join?.view?.(nominal), join?.relayFields?.()]
  if (view === undefined || lenses == null) throw new Error('real lenses')
  return { view: { ...view, lenses }, lenses, lossDb: lossDb(nominal) }
}

const markOf = (windows: ReturnType<typeof viewWindows>, axis: string, excessDb: number) => {
  const mark = windows.find((each) => each.axis === axis)?.marks.find((each) => each.excessDb === excessDb)
  if (mark?.below == null || mark.above === null) throw new Error('no window')
  return { below: mark.below, above: mark.above }
}

const still = relay()
const found = fieldWindows(still.view)
if (found === null || found === 'pending') throw new Error('no windows')
const windows = found

describe('a chip at the end of its window', () => {
  const across = (byUm: number) => (element: RelayElement) => {
    element.aligned = [] // a station would take the displacement back
    element.offsetX = um(byUm)
    element.lens1.offsetX = um(byUm)
    element.lens2.offsetX = um(byUm)
  }
  const along = (byUm: number) => (element: RelayElement) => {
    element.backGap = um(coreValue(element.backGap, 'gap') + byUm)
  }

  test.each([
    ['offsetXUm', across],
    ['gapUm', along],
  ] as const)('has lost as much more as it says: %s', (axis, move) => {
    const addedDb = (by: number) => relay(move(by)).lossDb - still.lossDb
    for (const excessDb of [0.5, 1]) {
      const { below, above } = markOf(windows, axis, excessDb)
      expect(Math.abs(addedDb(above) - excessDb)).toBeLessThan(0.005)
      expect(Math.abs(addedDb(-below) - excessDb)).toBeLessThan(0.005)
      const paraxial = markOf(viewWindows(still.view), axis, excessDb)
      expect(Math.abs(addedDb(paraxial.above) - excessDb)).toBeGreaterThan(0.05)
    }
  })

  test('is that of Compare, and the curves of Compare lose 1 dB there', () => {
    const { below, above } = markOf(windows, 'gapUm', 1)
    expect(above).toBeLessThan(0.6 * below)
    expect(viewChipWindow(still.view, 'gapUm')).toEqual({ distance: above, only: null })
    const offset = markOf(windows, 'offsetXUm', 1).above
    const excess = offsetExcess(still.view, offset)
    expect(excess.isProvisional).toBe(false)
    expect(excess.x[0]).toBeCloseTo(1, 5)
    expect(excess.x[24]).toBeCloseTo(0, 9)
  })
})

describe('the curve and the map', () => {
  const { lenses, view } = still

  test('show the loss of every pose in its place', () => {
    const { curve, map } = finish(
      relayToleranceSteps({ lenses, joint: view.joint, x: 'gapUm', y: 'offsetYUm' }),
    )
    const loss = relayLossOf(lenses, view.joint)
    for (const [i, j] of [
      [3, 9],
      [30, 20],
      [40, 31],
    ] as const) {
      const pose = { ...view.joint, gapUm: map.x[i] ?? 0, offsetYUm: map.y[j] ?? 0 }
      expect(map.rowsDb[j]?.[i]).toBeCloseTo(loss(pose), 9)
    }
    expect(map.hereDb).toBeCloseTo(loss(view.joint), 9)
    expect(map.leastDb).toBeLessThan(map.hereDb - 0.1)
    expect(curve.lossesDb[10]).toBeCloseTo(loss({ ...view.joint, gapUm: curve.positions[10] ?? 0 }), 9)
  })
})

test('lines and planes are answered one after the other, planes row by row', () => {
  const { lenses, view } = still
  const joint = { ...view.joint, offsetXUm: 0.2, offsetYUm: -0.1 }
  const x = { axis: 'offsetXUm', from: -0.5, to: 0.7, count: 3 } as const
  const y = { axis: 'tiltYRad', from: -0.04, to: 0.06, count: 2 } as const
  const loss = relayLossOf(lenses, joint)
  const wanted = [
    ...[-0.04, 0.06].map((tiltYRad) => ({ tiltYRad })),
    ...[-0.04, 0.06].flatMap((tiltYRad) => [-0.5, 0.1, 0.7].map((offsetXUm) => ({ offsetXUm, tiltYRad }))),
  ]
  const answer = finish(relayLossSteps(lenses, joint, [[y], [x, y]]))
  expect(answer).toHaveLength(8)
  for (const [i, pose] of wanted.entries()) expect(answer[i]).toBeCloseTo(loss({ ...joint, ...pose }), 9)
})

describe('poses that mirrors turn into one another', () => {
  const { lenses, view } = still
  const traced = (joint: GaussianJoint, poses: readonly Partial<GaussianJoint>[]) => {
    const asked: GaussianJoint[] = []
    const lossOf = mirrored(lenses, joint, (pose) => {
      asked.push(pose)
      return asked.length
    })
    for (const pose of poses) lossOf({ ...joint, ...pose })
    return asked.length
  }
  const MIRRORED = [
    { offsetXUm: 0.4, tiltXRad: 0.02, offsetYUm: 0.1 },
    { offsetXUm: -0.4, tiltXRad: -0.02, offsetYUm: 0.1 },
    { offsetXUm: 0.4, tiltXRad: 0.02, offsetYUm: -0.1 },
  ]

  test('have one loss, which is traced once; others are traced', () => {
    expect(traced(view.joint, MIRRORED)).toBe(1)
    // An elliptical mode lies in one plane and not in the other.
    expect(traced(view.joint, [{ offsetXUm: 0.4 }, { offsetYUm: 0.4 }])).toBe(2)
    expect(traced({ ...view.joint, receiverMfdYUm: 3.4 }, [{ offsetXUm: 0.4 }, { offsetYUm: -0.4 }])).toBe(1)
    expect(
      traced(view.joint, [
        { offsetXUm: 0.4, tiltXRad: 0.02 },
        { offsetXUm: 0.4, tiltXRad: -0.02 },
      ]),
    ).toBe(2)
  })

  test('of a joint that is not in line are traced one by one', () => {
    expect(traced({ ...view.joint, offsetXUm: 0.3 }, MIRRORED)).toBe(3)
  })

  test('lose the same by rays', () => {
    const loss = relayLossOf(lenses, view.joint)
    const [first = 0, ...others] = MIRRORED.map((pose) => loss({ ...view.joint, ...pose }))
    for (const other of others) expect(other).toBeCloseTo(first, 3)
    expect(relayHereDb(lenses, view.joint)).toBeCloseTo(loss(view.joint), 9)
  })
})

test('a page asks for them elsewhere, and has the paraxial image meanwhile', () => {
  // Like no other test's, whose answers are known.
  const { view } = relay(undefined, 1648.317)
  const line = [{ axis: 'offsetXUm', from: -1, to: 1, count: 5 }] as const
  const here = [fieldWindows(view), displacedLosses(view.joint, view.lenses, [line])] as const
  const asked: FieldRequest[] = []
  onTestFinished(fitElsewhere((request) => asked.push(request)))
  const { view: other } = relay(undefined, 1648.318)
  expect(fieldWindows(other)).toBe('pending')
  expect(viewChipWindow(other, 'offsetXUm')).toBe('pending')
  const meanwhile = displacedLosses(other.joint, other.lenses, [line])
  expect(meanwhile.isProvisional).toBe(true)
  expect(meanwhile.lossesDb[0]?.[0]).toBeCloseTo(jointLossDb({ ...other.joint, offsetXUm: -1 }), 12)
  expect([...new Set(asked.map(({ kind }) => kind))]).toEqual(['relay windows', 'relay losses'])
  for (const request of asked) learnAnswer(request.key, finish(answerSteps(request)))
  // A picometre further nothing has changed.
  const [windowsHere, lossesHere] = here
  const after = fieldWindows(other)
  if (after === null || after === 'pending' || windowsHere === null || windowsHere === 'pending')
    throw new Error('no windows')
  expect(markOf(after, 'offsetXUm', 1).above).toBeCloseTo(markOf(windowsHere, 'offsetXUm', 1).above, 4)
  const answered = displacedLosses(other.joint, other.lenses, [line])
  expect(answered.isProvisional).toBe(false)
  expect(answered.hereDb).toBeCloseTo(lossesHere.hereDb, 4)
  expect(answered.lossesDb[0]?.[1]).toBeCloseTo(lossesHere.lossesDb[0]?.[1] ?? 0, 4)
  expect(asked).toHaveLength(3)
})
