// What a chip edge does to a design: budget, verdict, optimum, widest tolerance, and the words about it.

import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { clearanceFindings } from '../../../src/analysis/clearance/findings'
import { turnRange } from '../../../src/analysis/clearance/freedom'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { widestHalf } from '../../../src/analysis/sizing/sizedSlots'
import { bestSettings } from '../../../src/analysis/tolerance/bestSettings'
import { checkRequirements } from '../../../src/analysis/verdicts/checkRequirements'
import { poseContact } from '../../../src/analysis/yield/poseContact'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { ChipEdge } from '../../../src/model/schema/build/chipEdge'
import type { RelayElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { withoutTolerances } from '../../support/withoutTolerances'

const DEG = Math.PI / 180
const EDGE: ChipEdge = {
  recess: quantityOf(15, 'um'),
  ledgeDepth: quantityOf(10, 'um'),
  chipThickness: quantityOf(700, 'um'),
}

/** The demo's dry cleaved fibre before a chip with an edge, at a gap. */
function facing(edge: Partial<ChipEdge>, gapUm: number, plusMinus = 1): Project {
  return produce(demoProject(), (draft) => {
    for (const facet of draft.facets) facet.chipEdge = { ...EDGE, ...edge }
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.gap = quantityOf(gapUm, 'um', 'estimate', plusMinus)
  })
}
const NAME = 'cleaved-dry'
const compiled = (project: Project) => {
  const result = compileCandidate(project, NAME)
  if (!result.ok) throw new Error('compiles')
  return result.value
}
const findings = (project: Project) => {
  const [candidate] = project.candidates
  if (candidate === undefined) throw new Error('the demo has designs')
  return clearanceFindings(project, candidate, evaluateCandidate(project, NAME))
}

describe('a gap below contact', () => {
  test('is computed at contact, cautioned with what meets what and what would fit, and not met', () => {
    const project = facing({}, 3)
    const evaluation = evaluateCandidate(project, NAME)
    expect(evaluation.nominalDb).toBeCloseTo(evaluateCandidate(facing({}, 15), NAME).nominalDb, 9)
    expect(evaluation.joints[0]?.joint.gapUm).toBe(15)
    const [first] = evaluation.validity
    expect(first?.caution).toBe(true)
    expect(first?.message).toContain(
      'Not reachable: the 125 µm cladding touches the ledge at a gap of 15 µm; the entered gap is 3 µm.',
    )
    // 2 (10 - 12 tan 10 deg) = 15.768 um; cladding radius; the gap itself.
    expect(first?.message).toContain('tapered at a half-angle of 10° to at most 15.7 µm')
    expect(first?.message).toContain('at least 62.5 µm below the waveguide')
    expect(first?.message).toContain('a recess of at most 3.0 µm')
    expect(first?.message).toContain('a working distance above 15.0 µm')
    const found = checkRequirements(project, evaluation).find(({ id }) => id === 'clearance')
    expect(found).toMatchObject({ status: 'not met', value: '15', limit: '≤ 3 µm' })
  })

  test('is no matter where the edge is out of the way', () => {
    const deep = facing({ ledgeDepth: quantityOf(80, 'um') }, 3)
    const evaluation = evaluateCandidate(deep, NAME)
    expect(evaluation.nominalDb).toBe(evaluateCandidate(demoProject(), NAME).nominalDb)
    expect(evaluation.validity.filter(({ caution }) => caution)).toEqual([])
    const found = checkRequirements(deep, evaluation).find(({ id }) => id === 'clearance')
    expect(found?.status).toBe('met')
  })
})

test('the pose is that of the joint; the last lens of a relay is upright', () => {
  const poseAt = (id: string, change: (project: Project) => void) => {
    const project = produce(withoutTolerances(facing({}, 20)), change)
    const candidate = project.candidates.find((each) => each.id === id)
    if (candidate === undefined) throw new Error(`no ${id}`)
    const evaluation = evaluateCandidate(project, id)
    return {
      pose: clearanceFindings(project, candidate, evaluation).at(-1)?.pose,
      view: evaluation.joints.at(-1),
    }
  }
  const { pose, view } = poseAt(NAME, (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind !== 'gap') return
    Object.assign(gap, { offsetX: quantityOf(0.5, 'um'), offsetY: quantityOf(-0.25, 'um') })
    Object.assign(gap, {
      roll: quantityOf(20, 'deg'),
      tiltX: quantityOf(1, 'deg'),
      tiltY: quantityOf(-2, 'deg'),
    })
  })
  expect(pose?.rollRad).toBeCloseTo(20 * DEG, 12)
  expect(pose?.axisXRad).toBeCloseTo(1 * DEG, 3)
  expect(pose?.axisYRad).toBeCloseTo(-2 * DEG, 3)
  expect([pose?.offsetXUm, pose?.offsetYUm]).toEqual([view?.joint.offsetXUm, view?.joint.offsetYUm])
  expect(pose?.offsetXUm).toBeCloseTo(0.5, 1)
  const relay = poseAt('relay', (draft) => {
    const element = draft.candidates
      .find(({ id }) => id === 'relay')
      ?.chain.find(({ kind }) => kind === 'relay')
    if (element?.kind !== 'relay') return
    element.roll = quantityOf(10, 'deg')
    element.offsetX = quantityOf(1, 'um')
    element.barrel = { diameter: quantityOf(1, 'mm'), barrelOverhang: quantityOf(0, 'um') }
  })
  expect(relay.view?.joint.rollRad).not.toBe(0)
  expect(Object.values(relay.pose ?? { missing: 1 })).toEqual(Array.from({ length: 7 }, () => 0))
})

test('every remedy lets the gap be reached, by the same geometry, and a hair less does not', () => {
  const reached = (edge: Partial<ChipEdge>) => findings(facing(edge, 3))[0]?.reached
  expect(reached({ recess: quantityOf(3, 'um') })).toBe(true)
  expect(reached({ recess: quantityOf(3.1, 'um') })).toBe(false)
  expect(reached({ ledgeDepth: quantityOf(62.5, 'um') })).toBe(true)
  expect(reached({ ledgeDepth: quantityOf(62.4, 'um') })).toBe(false)
  const tapered = (endUm: number) =>
    produce(facing({}, 3), (draft) => {
      const fibre = draft.candidates[0]?.chain[0]
      if (fibre?.kind === 'fibre')
        fibre.outline = {
          kind: 'tapered',
          endDiameter: quantityOf(endUm, 'um'),
          coneAngle: quantityOf(10, 'deg'),
        }
    })
  expect(findings(tapered(15.7))[0]?.reached).toBe(true)
  expect(findings(tapered(15.8))[0]?.reached).toBe(false)
})

test('the search for the best settings and tolerances stop at contact', () => {
  const free = produce(facing({}, 3), (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.pinned = []
  })
  const best = bestSettings(compiled(free)).settings.find(({ name }) => name === 'gap')
  expect(best?.best).toBe(15)
  const near = compiled(facing({}, 16))
  const slot = near.variables.findIndex(({ path }) => path.at(-1) === 'gap')
  expect(widestHalf(near, slot)).toBe(1)
})

/** The same with every tolerance but that of the gap taken away, so that nothing is tilted. */
const upright = (project: Project) =>
  produce(project, (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind !== 'gap') return
    for (const axis of ['offsetX', 'offsetY', 'tiltX', 'tiltY', 'roll'] as const)
      gap[axis] = quantityOf(0, gap[axis].unit)
  })

test('a sampled gap below contact is contact, and is counted', () => {
  const project = upright(facing({}, 16, 1))
  const run = runYield(project, NAME, { samples: 4096, seed: 1, rankingPoints: null })
  // Uniform 15 to 17 um never touches; at 15.5 um a quarter does.
  expect(run.touching).toBe(0)
  const closer = runYield(upright(facing({}, 15.5, 1)), NAME, { samples: 4096, seed: 1, rankingPoints: null })
  expect(closer.touching).toBeCloseTo(0.25, 2)
  expect(closer.assumptions.join(' ')).toContain('15 µm')
  const below = runYield(facing({}, 3, 1), NAME, { samples: 4096, seed: 1, rankingPoints: null })
  expect(below.touching).toBe(1)
  expect(below.p50Db).toBeCloseTo(
    runYield(facing({}, 15, 0), NAME, { samples: 4096, seed: 1, rankingPoints: null }).p50Db,
    1,
  )
})

test('draws below contact lose what contact loses: percentiles and yield of a uniform gap by hand', () => {
  const at = (um: number) => withoutTolerances(facing({}, um))
  const nominalDb = (um: number) => evaluateCandidate(at(um), NAME).nominalDb
  // 13 to 17 um about a contact at 15 um: half of all draws are at contact, the rest lie evenly between 15 and 17 um.
  const project = produce(at(15), (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.gap = quantityOf(15, 'um', 'estimate', 2)
    draft.requirements.losses = [
      { id: 'loss', limit: quantityOf(nominalDb(16), 'dB'), basis: 'RSS', percentile: 95, channels: 'one' },
    ]
  })
  const run = runYield(project, NAME, { samples: 4096, seed: 5, rankingPoints: null })
  expect(nominalDb(3)).toBe(nominalDb(15))
  expect(run.p50Db).toBeCloseTo(nominalDb(15), 2)
  expect(run.p95Db).toBeCloseTo(nominalDb(16.8), 2)
  expect(run.yield).toBeCloseTo(0.75, 2)
  expect(run.touching).toBeCloseTo(0.5, 2)
})

test('assemblies that touch, each in its own pose, are as many as in a Monte Carlo by hand', () => {
  const [gapUm, halfUm, sigmaDeg, sigmaUm] = [16, 1.5, 1, 4]
  const normal = (sigma: number) => ({ plusMinus: sigma, distribution: 'normal', coverage: 1 }) as const
  const project = produce(withoutTolerances(facing({}, gapUm)), (draft) => {
    const gap = draft.candidates[0]?.chain[1]
    if (gap?.kind !== 'gap') return
    gap.gap = quantityOf(gapUm, 'um', 'estimate', halfUm)
    gap.tiltX = quantityOf(0, 'deg', 'estimate', normal(sigmaDeg))
    gap.offsetY = quantityOf(0, 'um', 'estimate', normal(sigmaUm))
  })
  // A generator of its own (S. K. Park, K. W. Miller, Commun. ACM 31 (1988) 1192) and Box-Muller.
  let state = 20_261
  const uniform = () => {
    state = (state * 16_807) % 2_147_483_647
    return state / 2_147_483_647
  }
  const gauss = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  const draws = 40_000
  let touching = 0
  for (let n = 0; n < draws; n++) {
    const gap = gapUm + halfUm * (2 * uniform() - 1)
    const tiltRad = Math.abs(sigmaDeg * DEG * gauss())
    const downUm = 10 + sigmaUm * gauss()
    // The ledge lies 10 um below the axis and 15 um before the facet; the part of the face below its surface is widest there,
    // and reaches forward by its half width times the sine of the tilt.
    const halfWidthUm = downUm <= 0 ? 62.5 : Math.sqrt(62.5 ** 2 - downUm ** 2)
    if (gap - halfWidthUm * Math.sin(tiltRad) < 15) touching++
  }
  const run = runYield(project, NAME, { samples: 4096, seed: 5, rankingPoints: null })
  expect(touching / draws).toBeGreaterThan(0.2)
  expect(touching / draws).toBeLessThan(0.8)
  expect(Math.abs((run.touching ?? Number.NaN) - touching / draws)).toBeLessThan(0.02)
})

test('tilt within its tolerance brings the rim to the chip: share and gap to set by the normal distribution', () => {
  // A rim of 62.5 um touches a flat chip at a gap of 62.5 sin(tilt). Tilt x is normal with a standard deviation of 1.5 degrees.
  const project = produce(
    upright(facing({ recess: quantityOf(0, 'um'), chipThickness: quantityOf(5000, 'um') }, 3, 0)),
    (draft) => {
      const gap = draft.candidates[0]?.chain[1]
      if (gap?.kind === 'gap')
        gap.tiltX = quantityOf(0, 'deg', 'estimate', { plusMinus: 3, distribution: 'normal', coverage: 2 })
    },
  )
  const found = poseContact(compiled(project), 0.95, 3)
  // 2.7513 degrees are 1.8342 standard deviations: 6.66 % lie beyond on both sides (table of the normal distribution).
  expect(found?.share).toBeCloseTo(0.0666, 2)
  expect(found?.joints[0]?.share).toBe(found?.share)
  // 95 % are within 1.95996 standard deviations, 2.93994 degrees: contact at 3.2056 um.
  expect(3 + (found?.joints[0]?.moreUm ?? Number.NaN)).toBeCloseTo(62.5 * Math.sin(2.93994 * DEG), 1)
  expect(poseContact(compiled(demoProject()), 0.95, 3)).toBeNull()
})

test('a fibre before a flat chip tilts until its rim touches: arcsin of gap over radius', () => {
  const [finding] = findings(
    facing({ recess: quantityOf(0, 'um'), chipThickness: quantityOf(5000, 'um') }, 3),
  )
  if (finding === undefined) throw new Error('an edge is stated')
  const [negative, positive] = turnRange(finding.setup, finding.pose, 3, 'axisXRad')
  const expected = Math.asin(3 / 62.5)
  expect(positive).toBeCloseTo(expected, 6)
  expect(negative).toBeCloseTo(expected, 6)
  expect(expected / DEG).toBeCloseTo(2.7513, 4)
  // Downwards the chip continues; upwards it ends 3.3 um above the waveguide, and the rim passes above it.
  const [up] = turnRange(finding.setup, finding.pose, 3, 'axisYRad')
  expect(up).not.toBeCloseTo(expected, 3)
  expect(turnRange(finding.setup, finding.pose, 3, 'rollRad')).toEqual([null, null])
})

test('a lens barrel that meets the ledge is said to be in the way, and the relay is computed at contact', () => {
  const withBack = (backGapUm: number, edged: boolean) =>
    produce(withoutTolerances(demoProject()), (draft) => {
      const relay = draft.candidates.find(({ id }) => id === 'relay')?.chain[1]
      if (relay?.kind !== 'relay') return
      relay.backGap = quantityOf(backGapUm, 'um', 'estimate', 0.5)
      if (!edged) return
      for (const facet of draft.facets) facet.chipEdge = { ...EDGE }
      relay.barrel = { diameter: quantityOf(2, 'mm'), barrelOverhang: quantityOf(40, 'um') }
    })
  const evaluation = evaluateCandidate(withBack(46.73, true), 'relay')
  // Contact at recess and overhang together, 55 um; the lens is 46.73 um before the facet: 8.27 um too near.
  const said = evaluation.validity[0]?.message
  expect(said).toContain('the lens barrel touches the ledge at a gap of 55 µm; the entered gap is 46.7 µm')
  expect(said).toContain('All results are for contact')
  expect(said).toContain('a lens barrel set back by 8.3 µm')
  expect(said).not.toContain('trench')
  expect(evaluation.nominalDb).toBeCloseTo(evaluateCandidate(withBack(55, false), 'relay').nominalDb, 6)
  expect(evaluation.nominalDb).toBeGreaterThan(
    evaluateCandidate(withBack(46.73, false), 'relay').nominalDb + 0.1,
  )
})

describe('lens 2 moved along the light', () => {
  // Contact at 55 um as above; the lens is entered 60 um before the facet.
  const relayOf = (change: (relay: RelayElement) => void, edged = true) =>
    produce(withoutTolerances(demoProject()), (draft) => {
      const relay = draft.candidates.find(({ id }) => id === 'relay')?.chain[1]
      if (relay?.kind !== 'relay') return
      relay.backGap = quantityOf(60, 'um')
      change(relay)
      if (!edged) return
      for (const facet of draft.facets) facet.chipEdge = { ...EDGE }
      relay.barrel = { diameter: quantityOf(2, 'mm'), barrelOverhang: quantityOf(40, 'um') }
    })
  const shifted = (byUm: number, edged = true) =>
    relayOf((relay) => {
      relay.lens2.offsetZ = quantityOf(byUm, 'um')
    }, edged)

  test('stops at contact in the budget: 20 µm of shift are 5 µm, and the design does not fit', () => {
    const evaluation = evaluateCandidate(shifted(20), 'relay')
    expect(evaluation.joints[0]?.joint.gapUm).toBeCloseTo(55, 9)
    expect(evaluation.nominalDb).toBeCloseTo(evaluateCandidate(shifted(5, false), 'relay').nominalDb, 6)
    expect(evaluation.validity[0]?.message).toContain('at a gap of 55 µm; the entered gap is 40 µm')
    expect(
      evaluateCandidate(shifted(4), 'relay')
        .validity.map(({ message }) => message)
        .join(),
    ).not.toContain('Not reachable')
  })

  test('stops at contact where a station aligns it, and in every sample of a run', () => {
    const aligned = relayOf((relay) => {
      relay.lens2.aligned = ['offsetZ']
      // The image lies nearer than contact: the search ends there.
      relay.backGap = quantityOf(75, 'um')
    })
    const [joint] = evaluateCandidate(aligned, 'relay').joints
    expect(joint?.joint.gapUm).toBeCloseTo(55, 3)
    const loose = relayOf((relay) => {
      relay.lens2.offsetZ = quantityOf(0, 'um', 'estimate', 30)
    })
    const compiled = compileCandidate(loose, 'relay')
    if (!compiled.ok) throw new Error('the relay compiles')
    const { joins, nominal, variables } = compiled.value
    const slot = variables.findIndex(({ path }) => path.slice(-2).join('.') === 'lens2.offsetZ')
    const gapAt = (byUm: number) => {
      const v = Float64Array.from(nominal)
      v[slot] = byUm
      return joins[0]?.view?.(v).joint.gapUm
    }
    expect([-30, 4, 30].map(gapAt)).toEqual([90, 56, 55])
  })
})
