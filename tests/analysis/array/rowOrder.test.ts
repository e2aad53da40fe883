// Rows of lenses and guides of an array that are aligned on power, in the order that is stated.

import { describe, expect, test } from 'vitest'
import { runArray } from '../../../src/analysis/array/runArray'
import { evaluateCandidate } from '../../../src/analysis/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { RelayElement } from '../../../src/model/schema/candidate'
import type { FibreArray } from '../../../src/model/schema/fibreArray'
import type { Project } from '../../../src/model/schema/project'
import type { RelayMember } from '../../../src/model/words/candidate'
import { familiesProject, relayElement, thinLensEntry } from '../support/families'

const um = (value: number) => quantityOf(value, 'um')
const mrad = (value: number) => quantityOf(value, 'mrad')

/** Four channels through lens arrays, lens 1 off its place by 3 and -2 um. */
function rowProject(change: Partial<RelayElement>, array: Partial<FibreArray> = {}): Project {
  const { lens1 } = relayElement()
  const relay = relayElement({
    frontGap: um(250),
    stretch: um(900),
    backGap: um(73),
    device: undefined,
    lens1: { ...lens1, offsetX: um(3), offsetY: um(-2), offsetZ: um(6) },
    ...change,
  })
  const base = familiesProject(relay)
  const lens = (id: string, focalUm: number) => ({
    ...thinLensEntry(id, focalUm),
    clearAperture: um(120),
    pitch: um(127),
  })
  const plain: FibreArray = { pitch: um(127), coreX: um(0), coreY: um(0), bow: um(0), aim: 'sum of all' }
  return {
    ...base,
    lenses: [lens('lens-1', 250), lens('lens-2', 73)],
    requirements: { ...base.requirements, channels: 4 },
    candidates: base.candidates
      .filter(({ id }) => id === 'relay')
      .map((each) => ({ ...each, array: { ...plain, ...array } })),
  }
}

const run = (project: Project) => runArray(project, 'relay', { samples: 2 })
const nominals = (project: Project) => run(project).aims[0]!.channels.map(({ nominalDb }) => nominalDb)
const alone = (project: Project) => evaluateCandidate(project, 'relay').nominalDb

describe('rows aligned in the stated order', () => {
  // Tilts across the row only: one along it opens the distance at one end and closes it at the other.
  const { lens2 } = relayElement()
  const aligned: Partial<RelayElement> = {
    aligned: ['offsetX', 'offsetY', 'offsetZ', 'tiltY'],
    offsetX: um(0.4),
    offsetZ: um(-3),
    tiltY: mrad(2),
    lens2: {
      ...lens2,
      offsetX: um(0.8),
      offsetY: um(-0.6),
      offsetZ: um(1.5),
      aligned: ['offsetX', 'offsetY', 'offsetZ'],
    },
  }
  const orders: readonly RelayMember[][] = [
    ['guide', 'lens2'],
    ['lens2', 'guide'],
  ]
  test.each(orders)(
    '%s first, then %s: every channel of a perfect array loses what one channel loses',
    (...alignOrder) => {
      const project = rowProject({ ...aligned, alignOrder })
      for (const loss of nominals(project)) expect(loss).toBeCloseTo(alone(project), 3)
      expect(run(project).assumptions.join(' ')).toContain(
        alignOrder[0] === 'guide'
          ? 'in the order fibre side, then lens 2'
          : 'in the order lens 2, then fibre side',
      )
    },
  )

  test('and the order makes a difference', () => {
    const [fibreFirst, lensFirst] = orders.map(
      (alignOrder) => nominals(rowProject({ ...aligned, alignOrder }))[0]!,
    )
    expect(fibreFirst!).toBeGreaterThan(lensFirst! + 0.1)
  })
})

test('a row of lenses goes where all channels together couple most, as no entered decentre does better', () => {
  // The bow lifts the outer fibres by 1 um, the outer fibre's pitch is off: lens 2 can only find the middle of it.
  const array = { bow: um(1), pitch: um(127.2) }
  const { lens2 } = relayElement()
  const powerDb = (project: Project) =>
    -10 * Math.log10(nominals(project).reduce((sum, lossDb) => sum + 10 ** (-lossDb / 10), 0) / 4)
  const typed = (y: number) => powerDb(rowProject({ lens2: { ...lens2, offsetY: um(y) } }, array))
  const found = powerDb(rowProject({ lens2: { ...lens2, aligned: ['offsetY'] } }, array))
  const least = Math.min(...Array.from({ length: 61 }, (_, i) => typed(-3 + i / 10)))
  expect(found).toBeLessThan(typed(0) - 0.05)
  expect(found).toBeLessThan(least + 1e-3)
  expect(found).toBeGreaterThan(least - 0.02)
})

test('what the fibre row leaves is made up for by lenses that are aligned after it', () => {
  const { lens2 } = relayElement()
  const residual = {
    offsetX: um(0.9),
    offsetY: um(0),
    aligned: ['offsetX', 'offsetY'] as RelayElement['aligned'],
  }
  const at = (alignOrder: RelayMember[]) =>
    nominals(
      rowProject({ ...residual, lens2: { ...lens2, aligned: ['offsetX', 'offsetY'] }, alignOrder }),
    )[0]!
  const [fibreLast, lensesLast] = [at(['lens2', 'guide']), at(['guide', 'lens2'])]
  expect(fibreLast).toBeGreaterThan(lensesLast + 0.05)
})
