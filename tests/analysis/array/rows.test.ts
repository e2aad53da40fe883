// Rows of channels that face each other at more than one joint, and through lenses. What one channel of a block loses must
// be what the chain loses with that channel's displacement entered.

import { describe, expect, test } from 'vitest'
import { type ArrayResult, runArray } from '../../../src/analysis/array/runArray'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement, RelayElement } from '../../../src/model/schema/candidate'
import type { FibreArray } from '../../../src/model/schema/fibreArray'
import type { LensEntry } from '../../../src/model/schema/parts'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement, thinLensEntry } from '../support/families'

const um = (value: number) => quantityOf(value, 'um')
const PLAIN: FibreArray = { pitch: um(127), coreX: um(0), coreY: um(0), bow: um(0), aim: 'sum of all' }
const CHANNELS = 12

/** One candidate alone, its fibres in a block. */
function blockProject(project: Project, id: string, array: Partial<FibreArray> = {}): Project {
  return {
    ...project,
    requirements: { ...project.requirements, channels: CHANNELS },
    candidates: project.candidates
      .filter((each) => each.id === id)
      .map((each) => ({ ...each, array: { ...PLAIN, ...array } })),
  }
}

/** A taper chip from 127 um to 50 um before a chip of 50 um, the taper chip's output off by so much a pitch. */
function taperProject(
  outputErrorUm: number,
  array: Partial<FibreArray> = {},
  aligned?: GapElement['aligned'],
) {
  const project = blockProject(familiesProject(), 'taper', array)
  project.requirements.pitch = um(50)
  for (const converter of project.converters) {
    if (converter.kind === 'taper chip') converter.outputPitch = um(50 + outputErrorUm)
  }
  if (aligned)
    for (const element of project.candidates[0]!.chain) if (element.kind === 'gap') element.aligned = aligned
  return project
}

/** Two lenses of an array, small enough for a pitch of 127 um, that image 10.6 um to some 3.1 um. */
function lensesProject(change: Partial<RelayElement>, pitchUm?: number, array: Partial<FibreArray> = {}) {
  const relay = relayElement({
    frontGap: um(250),
    stretch: um(900),
    backGap: um(73),
    device: undefined,
    ...change,
  })
  const project = blockProject(familiesProject(relay), 'relay', array)
  const lens = (id: string, focalUm: number): LensEntry => ({
    ...thinLensEntry(id, focalUm),
    clearAperture: um(120),
    ...(pitchUm !== undefined && { pitch: um(pitchUm) }),
  })
  return { ...project, lenses: [lens('lens-1', 250), lens('lens-2', 73)] }
}

const fromMiddle = (channel: number) => channel - (CHANNELS - 1) / 2
const nominals = (project: Project): readonly number[] => {
  const result: ArrayResult = runArray(project, project.candidates[0]!.id, { samples: 2 })
  return result.aims[0]!.channels.map(({ nominalDb }) => nominalDb)
}
const alone = (project: Project) => evaluateCandidate(project, project.candidates[0]!.id).nominalDb

describe('behind a taper chip that changes the pitch', () => {
  test('every channel of a perfect block loses what the chain loses', () => {
    const project = taperProject(0)
    for (const loss of nominals(project)) expect(loss).toBeCloseTo(alone(project), 9)
  })

  test('an error of the output pitch displaces the channels at the chip', () => {
    const losses = nominals(taperProject(0.2))
    for (const [channel, loss] of losses.entries()) {
      const typed = taperProject(0)
      const gap = typed.candidates[0]!.chain.find((each) => each.id === 'gap-2')
      if (gap?.kind === 'gap') gap.offsetX = um(0.2 * fromMiddle(channel))
      expect(loss).toBeCloseTo(alone(typed), 9)
    }
    expect(losses[0]! - losses[5]!).toBeGreaterThan(0.5)
  })

  test('an error of the fibres’ pitch and their bow displace the channels at the input', () => {
    const losses = nominals(taperProject(0, { pitch: um(127.3), bow: um(1) }))
    for (const [channel, loss] of losses.entries()) {
      const typed = taperProject(0)
      const gap = typed.candidates[0]!.chain.find((each) => each.id === 'gap-1')
      if (gap?.kind === 'gap') {
        gap.offsetX = um(0.3 * fromMiddle(channel))
        gap.offsetY = um((fromMiddle(channel) / 5.5) ** 2)
      }
      expect(loss).toBeCloseTo(alone(typed), 9)
    }
  })

  test('each row goes to its own best place where both joints are aligned', () => {
    const project = taperProject(0, { bow: um(0.8) }, ['offsetX', 'offsetY'])
    const { nominalPositions } = runArray(project, 'taper', { samples: 2 }).aims[0]!
    // The bow lifts the outer fibres, so the block is held lower; the taper chip's output is straight.
    expect(nominalPositions).toHaveLength(2)
    expect(nominalPositions[0]!.yUm).toBeLessThan(-0.1)
    expect(Math.abs(nominalPositions[1]!.yUm)).toBeLessThan(1e-6)
  })
})

describe('behind lenses', () => {
  test('every channel of a perfect block loses what the chain loses', () => {
    const project = lensesProject({})
    expect(alone(project)).toBeLessThan(2)
    for (const loss of nominals(project)) expect(loss).toBeCloseTo(alone(project), 9)
  })

  test('an error of the fibres’ pitch displaces the near end of every channel', () => {
    for (const [channel, loss] of nominals(lensesProject({}, 127, { pitch: um(127.25) })).entries()) {
      expect(loss).toBeCloseTo(alone(lensesProject({ offsetX: um(0.25 * fromMiddle(channel)) })), 9)
    }
  })

  test('an error of the lenses’ pitch displaces both lenses of every channel', () => {
    const { lens1, lens2 } = relayElement()
    for (const [channel, loss] of nominals(lensesProject({}, 127.2)).entries()) {
      const offsetX = um(0.2 * fromMiddle(channel))
      const typed = lensesProject({ lens1: { ...lens1, offsetX }, lens2: { ...lens2, offsetX } })
      expect(loss).toBeCloseTo(alone(typed), 9)
    }
  })

  test('the block is held where the station of a single channel would hold it, if all channels are alike', () => {
    // Along y only: a tilt along the row would open the gap of one end and close that of the other.
    const lens1 = { ...relayElement().lens1, offsetY: um(-2.2) }
    const aligned = lensesProject({ lens1, aligned: ['offsetX', 'offsetY', 'tiltX', 'tiltY'] })
    const placed = lensesProject({ lens1 })
    const best = alone(aligned)
    expect(alone(placed)).toBeGreaterThan(best + 0.5)
    for (const loss of nominals(aligned)) expect(loss).toBeCloseTo(best, 4)
  })

  test('the worst channel fares best where it is aimed at', () => {
    const project = lensesProject({ aligned: ['offsetX', 'offsetY'] }, 127, {
      bow: um(1.5),
      pitch: um(127.1),
    })
    const { aims } = runArray(project, 'relay', { samples: 2 })
    const worst = (aim: string) =>
      Math.max(...aims.find((each) => each.aim === aim)!.channels.map(({ nominalDb }) => nominalDb))
    expect(worst('worst channel')).toBeLessThan(worst('sum of all'))
  })
})
