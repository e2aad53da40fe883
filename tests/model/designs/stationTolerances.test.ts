// Station accuracy as the default tolerance of set axes, against numbers worked out by hand.

import { describe, expect, test } from 'vitest'
import { gapToRelay, insertTaperChip, relayToGap } from '../../../src/model/designs/chainEdits'
import { newGapElement } from '../../../src/model/designs/newElements'
import {
  applyStation,
  heldByStation,
  setAxes,
  stationChanges,
} from '../../../src/model/designs/stationTolerances'
import { usualArray } from '../../../src/model/designs/usualArray'
import { demoProject, parseProject } from '../../../src/model/index'
import { emptyProject } from '../../../src/model/project/emptyProject'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { ChainElement } from '../../../src/model/schema/candidate'
import type { Requirements } from '../../../src/model/schema/requirements'

const requirementsOf = (channels: number, station: Partial<Requirements['station']> = {}): Requirements => {
  const { requirements } = emptyProject()
  return {
    ...requirements,
    channels,
    pitch: quantityOf(250, 'um'),
    station: {
      lateral: quantityOf(0.3, 'um'),
      axial: quantityOf(1, 'um'),
      angular: quantityOf(0.2, 'deg'),
      ...station,
    },
  }
}

const halves = (element: ChainElement) =>
  Object.fromEntries(setAxes(element).map(({ label, quantity }) => [label, quantity.tolerance?.plusMinus]))

describe('new joints and lenses', () => {
  const chain = (): ChainElement[] => [
    { kind: 'fibre', id: 'fibre', fibreId: 'f' },
    newGapElement('gap', 'air'),
    { kind: 'facet', id: 'facet', facetId: 'c' },
  ]

  test('get what the station holds, by kind of axis', () => {
    const [, gap] = heldByStation(chain(), requirementsOf(1))
    expect(gap && halves(gap)).toEqual({
      gap: 1,
      'offset x': 0.3,
      'offset y': 0.3,
      'tilt x': 0.2,
      'tilt y': 0.2,
      roll: 0.2,
    })
  })

  test('of an array get the roll and yaw that its outer channels leave, not those of one channel', () => {
    // Outer channels at 3.5 * 250 = 875 um: atan(0.3 / 875) = 0.01964 deg and atan(1 / 875) = 0.06548 deg.
    const [, gap] = heldByStation(chain(), requirementsOf(8))
    expect(gap && halves(gap)).toMatchObject({ roll: 0.0196, 'tilt x': 0.0655, 'tilt y': 0.2 })
    // A row of two at 10 um could turn by 3.4 deg; the station's angle is finer.
    const narrow = { ...requirementsOf(2), pitch: quantityOf(10, 'um') }
    expect(halves(heldByStation(chain(), narrow)[1] as ChainElement)).toMatchObject({ roll: 0.2 })
    const stated = requirementsOf(8, { roll: quantityOf(0.05, 'deg') })
    expect(halves(heldByStation(chain(), stated)[1] as ChainElement)).toMatchObject({ roll: 0.05 })
  })

  test('take the residual on axes that are aligned on power, where one is given', () => {
    const requirements = requirementsOf(1, { active: { lateral: quantityOf(100, 'nm') } })
    const all = chain()
    gapToRelay(all, 1, 'air', 'a', 'b', requirements)
    const relay = all[1]
    if (relay?.kind !== 'relay') throw new Error('no relay')
    expect(halves(relay)).toMatchObject({
      'lens 1 decentre x': 0.3,
      'lens 2 axial shift z': 1,
      'lens 2 tilt y': 0.2,
    })
    relay.aligned = ['offsetX']
    relay.lens2.aligned = ['offsetY']
    expect(halves(heldByStation([relay], requirements)[0] as ChainElement)).toMatchObject({
      'offset x': 0.1,
      'offset y': 0.3,
      'lens 2 decentre x': 0.3,
      'lens 2 decentre y': 0.1,
      'lens 1 decentre y': 0.3,
    })
  })

  test('keep what a gap had when it becomes a relay and back', () => {
    const all = chain()
    const gap = all[1]
    if (gap?.kind !== 'gap') throw new Error('no gap')
    gap.offsetX.tolerance = { plusMinus: 0.77, distribution: 'normal' }
    gapToRelay(all, 1, 'air', 'a', 'b', requirementsOf(1))
    relayToGap(all, 1, requirementsOf(1))
    expect(halves(all[1] as ChainElement)).toMatchObject({ 'offset x': 0.77, gap: 1 })
    insertTaperChip(all, 0, 'chip', 'air', requirementsOf(1))
    expect(halves(all[1] as ChainElement)).toMatchObject({ 'offset x': 0.3, gap: 1 })
  })
})

describe('designs that exist', () => {
  test('are listed where they differ, and brought to the station where they are ticked', () => {
    const project = demoProject()
    const { channels, pitch } = project.requirements
    project.requirements = { ...requirementsOf(channels), pitch }
    const changes = stationChanges(project)
    expect(changes.length).toBeGreaterThan(10)
    const [first, ...rest] = changes
    if (first === undefined) throw new Error('no change')
    applyStation(project, [first])
    expect(stationChanges(project)).toEqual(rest)
    applyStation(project, rest)
    expect(stationChanges(project)).toEqual([])
    for (const { chain } of project.candidates) {
      for (const element of chain) {
        for (const [label, half] of Object.entries(halves(element))) {
          if (label.includes('offset') || label.includes('decentre')) expect(half).toBe(0.3)
        }
      }
    }
  })

  test('and files without the new figures still open, those with them keep them', () => {
    const old = structuredClone(demoProject())
    expect(parseProject(old).requirements.station.active).toBeUndefined()
    old.requirements.station.active = { roll: quantityOf(0.01, 'deg') }
    expect(parseProject(structuredClone(old)).requirements.station.active?.roll?.value).toBe(0.01)
  })
})

test('a usual array: its pitch is off by 0.3 um at the outer cores, and says that it has no source', () => {
  const { pitch, coreX } = usualArray(quantityOf(250, 'um'), 8)
  expect(3.5 * (pitch.tolerance?.plusMinus ?? 0)).toBeCloseTo(0.3, 3)
  expect([pitch.note, coreX.note]).toEqual(['Common practice, no source.', 'Common practice, no source.'])
  expect(usualArray(quantityOf(250, 'um'), 1).pitch.tolerance).toBeUndefined()
})
