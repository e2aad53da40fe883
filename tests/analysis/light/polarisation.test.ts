import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import { extinction } from '../../../src/analysis/light/extinction'
import { polarisationSpectrum } from '../../../src/analysis/light/polarisationSpectrum'
import { newIsolator } from '../../../src/model/designs/newElements'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import type { LightDirection } from '../../../src/model/words/requirements'
import { fresnelReflectance, refractiveIndex } from '../../../src/optics/index'
import { familiesProject, relayElement } from '../support/families'

function withTm(mfdXUm: number, mfdYUm: number): Project {
  const project = demoProject()
  const [facet] = project.facets
  if (facet !== undefined) facet.tm = { mfdX: quantityOf(mfdXUm, 'um'), mfdY: quantityOf(mfdYUm, 'um') }
  return project
}

/** The demo's stub chain with fibres that keep polarisation. */
function keeping(): Project {
  const project = demoProject()
  for (const fibre of project.fibres) fibre.polarisationMaintaining = true
  return project
}

const stubChain = (project: Project): Candidate => {
  const candidate = project.candidates.find((each) => each.id === 'high-na-bonded')
  if (candidate === undefined) throw new Error('the demo has no stub')
  return candidate
}

describe('polarisation-dependent loss', () => {
  test('of a facet with two modes is the difference of their mismatches', () => {
    const project = withTm(3, 2.2)
    const te = evaluateCandidate(project, 'cleaved-dry')
    const other = demoProject()
    const [facet] = other.facets
    if (facet !== undefined) {
      facet.mfdX = quantityOf(3, 'um')
      facet.mfdY = quantityOf(2.2, 'um')
    }
    const tm = evaluateCandidate(other, 'cleaved-dry')
    expect(te.polarisation.teDb).toBeCloseTo(te.nominalDb, 12)
    expect(te.polarisation.tmDb).toBeCloseTo(tm.nominalDb, 12)
    expect(te.polarisation.dependentLossDb).toBeCloseTo(Math.abs(tm.nominalDb - te.nominalDb), 12)
  })

  test('of square faces and one mode is nothing', () => {
    expect(evaluateCandidate(demoProject(), 'cleaved-dry').polarisation.dependentLossDb).toBe(0)
  })

  // Fresnel: Born and Wolf, sect. 1.5.2; TE lies along x, so that it is p for faces angled in x.
  test('of angled faces is the Fresnel difference of s and p', () => {
    const project = demoProject()
    const gap = project.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.nearFaceAngle = quantityOf(20, 'deg')
    const { polarisation } = evaluateCandidate(project, 'cleaved-dry')
    const { s, p } = fresnelReflectance({
      index1: refractiveIndex('fused silica', 1.6537),
      index2: refractiveIndex('air', 1.6537),
      incidenceRad: (20 * Math.PI) / 180,
    })
    expect(polarisation.tmDb - polarisation.teDb).toBeCloseTo(10 * Math.log10((1 - p) / (1 - s)), 10)
    expect(polarisation.tmDb).toBeGreaterThan(polarisation.teDb)
  })

  test('over the band is a curve, and its requirement is checked', () => {
    const project = withTm(3, 2.2)
    const curve = polarisationSpectrum(project, 'cleaved-dry')
    if (!curve.ok) throw new Error('no curve')
    expect(curve.value.greatestDb).toBeGreaterThan(1)
    const limited = (db: number, of: Project) => {
      const asked = {
        ...of,
        requirements: { ...of.requirements, polarisationDependentLoss: quantityOf(db, 'dB') },
      }
      return checkRequirements(asked, evaluateCandidate(asked, 'cleaved-dry')).find(({ id }) => id === 'pdl')
        ?.status
    }
    expect(limited(0.5, project)).toBe('not met')
    expect(limited(2, project)).toBe('met')
    expect(limited(2, demoProject())).toBe('not known')
  })
})

describe('extinction ratio', () => {
  test('a path with a fibre that is not polarisation-maintaining is reported, and the requirement is not met', () => {
    const project = demoProject()
    project.requirements.extinctionRatio = quantityOf(20, 'dB')
    const found = extinction(project, stubChain(project))
    expect(found.loose).toEqual(['Standard single-mode fibre', 'High-NA bridge fibre'])
    expect(found.nominal).toBeNull()
    const verdict = checkRequirements(project, evaluateCandidate(project, 'high-na-bonded')).find(
      ({ id }) => id === 'extinction',
    )
    expect(verdict?.status).toBe('not met')
  })

  test('is not known while the key angle of a splice is not given', () => {
    const project = keeping()
    project.requirements.extinctionRatio = quantityOf(20, 'dB')
    expect(extinction(project, stubChain(project)).unknown).toEqual(['Splice', 'Gap'])
    const verdict = checkRequirements(project, evaluateCandidate(project, 'high-na-bonded')).find(
      ({ id }) => id === 'extinction',
    )
    expect(verdict?.status).toBe('not known')
  })

  test('numbers joints as everywhere else, where there are several', () => {
    const project = keeping()
    const chip = project.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'taper chip'))
    expect(chip && extinction(project, chip).joins.map(({ label }) => label)).toEqual(['Joint 1', 'Joint 2'])
  })

  test('numbers splices where there are several', () => {
    const project = keeping()
    const candidate = stubChain(project)
    const [splice, stub] = candidate.chain.slice(1, 3)
    if (splice?.kind !== 'splice' || stub?.kind !== 'stub') throw new Error('a splice and a stub')
    const twice = [
      { ...splice, id: 'splice-2' },
      { ...stub, id: 'stub-2' },
    ]
    const longer = {
      ...candidate,
      chain: [...candidate.chain.slice(0, 3), ...twice, ...candidate.chain.slice(3)],
    }
    expect(extinction(project, longer).joins.map(({ label }) => label)).toEqual([
      'Splice 1',
      'Splice 2',
      'Gap',
    ])
  })

  // -10 log10 tan^2 of 2 degrees is 29.1383 dB, of 3 degrees 25.6121 dB (projection; elementary).
  test('of a splice keyed to 2 degrees and a gap without roll is 29.14 dB, with its tolerance of 1 degree 25.61 dB', () => {
    const project = keeping()
    for (const element of stubChain(project).chain) {
      if (element.kind === 'splice') element.keyAngle = quantityOf(2, 'deg', 'estimate', 1)
      if (element.kind === 'gap') element.keyAngle = quantityOf(0, 'deg')
    }
    const found = extinction(project, stubChain(project))
    expect(found.nominal?.worstDb).toBeCloseTo(29.1383, 4)
    expect(found.atTolerance?.worstDb).toBeCloseTo(25.6121, 4)
    project.requirements.extinctionRatio = quantityOf(25, 'dB')
    const status = (limitDb: number) => {
      project.requirements.extinctionRatio = quantityOf(limitDb, 'dB')
      return checkRequirements(project, evaluateCandidate(project, 'high-na-bonded')).find(
        ({ id }) => id === 'extinction',
      )?.status
    }
    expect(status(25)).toBe('met')
    expect(status(26)).toBe('not met')
  })

  test('is not known at a gap whose key angle nobody has stated, whatever its roll', () => {
    const project = keeping()
    const candidate = stubChain(project)
    for (const element of candidate.chain) {
      if (element.kind === 'splice') element.keyAngle = quantityOf(0, 'deg')
      if (element.kind === 'gap') element.roll = quantityOf(3, 'deg')
    }
    expect(extinction(project, candidate)).toMatchObject({ unknown: ['Gap'], nominal: null })
  })
})

describe('an isolator', () => {
  /** Key angle and rotation in degrees; light towards the chip by default. */
  function relayEr(keyDeg: number, rotationDeg: number | null, direction: LightDirection = 'fibre to chip') {
    const device = {
      ...newIsolator(),
      rotation: rotationDeg === null ? undefined : quantityOf(rotationDeg, 'deg'),
    }
    const project = familiesProject(relayElement({ device, keyAngle: quantityOf(keyDeg, 'deg') }))
    for (const fibre of project.fibres) fibre.polarisationMaintaining = true
    project.requirements.direction = direction
    const candidate = project.candidates.find(({ id }) => id === 'relay')
    if (candidate === undefined) throw new Error('no relay')
    return extinction(project, candidate)
  }
  /** Jones vectors: a state turned by the rotator, projected on the axes of the guide behind it. */
  const byJones = (keyDeg: number, rotationDeg: number) => {
    const turn = ((rotationDeg - keyDeg) * Math.PI) / 180
    const [along, across] = [Math.cos(turn), Math.sin(turn)]
    return 20 * Math.log10(Math.abs(along / across))
  }

  test('turns the state by its rotation, so that a key angle of as much keeps it', () => {
    expect(relayEr(42, 45).nominal?.worstDb).toBeCloseTo(byJones(42, 45), 9)
    expect(relayEr(2, 45).nominal?.worstDb).toBeCloseTo(byJones(2, 45), 9)
    expect(relayEr(0, 3).nominal?.worstDb).toBeCloseTo(byJones(0, 3), 9)
  })

  test('turns the same way in space for light from the chip: what helps one way hurts the other', () => {
    expect(relayEr(43, 45, 'chip to fibre').nominal?.worstDb).toBeCloseTo(0, 9)
    expect(relayEr(-43, 45, 'chip to fibre').nominal?.worstDb).toBeCloseTo(byJones(43, 45), 9)
    expect(relayEr(43, 45, 'both').nominal?.worstDb).toBeCloseTo(0, 9)
  })

  test('whose rotation is not given leaves the extinction ratio not known, by name', () => {
    expect(relayEr(0, null).unknown).toEqual(['Isolator (rotation not known)'])
  })
})
