import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { withSampleCase } from '../../../src/analysis/yield/sampleCase'
import { demoProject, parseProject, projectText } from '../../../src/model/index'
import { quantityAt, scaleTolerance } from '../../../src/model/quantity/quantityAt'

const OPTIONS = { samples: 4096, seed: 3 }

describe('a simulated assembly as a design', () => {
  test('loses what the run counted, also when it was aligned and bonded', () => {
    const project = demoProject()
    for (const candidate of project.candidates) candidate.mount = undefined
    for (const { id } of project.candidates) {
      const { worst } = runYield(project, id, { ...OPTIONS, rankingPoints: null })
      for (const { index, lossDb } of worst.slice(0, 3)) {
        const next = withSampleCase(project, id, OPTIONS, index)
        const compiled = compileCandidate(next.project, next.candidateId)
        if (!compiled.ok) throw new Error('an assembly that compiles')
        const { lines, nominal } = compiled.value
        const nominalDb = lines.reduce((sum, line) => sum + line.lossDb(nominal), 0)
        // A run reads the aberration of lenses from a polynomial about the nominal place; a design of its own has it anew.
        const hasLens = next.project.candidates
          .find(({ id: each }) => each === next.candidateId)!
          .chain.some(
            (element) => element.kind === 'relay' || ('tip' in element && element.tip !== undefined),
          )
        if (hasLens) expect(Math.abs(nominalDb - lossDb)).toBeLessThan(0.2)
        else expect(nominalDb).toBeCloseTo(lossDb, 6)
      }
    }
  })

  test('with a mount loses what the run counted at its worst temperature', () => {
    const project = demoProject()
    const [first] = runYield(project, 'high-na-bonded', { ...OPTIONS, rankingPoints: null }).worst
    const next = withSampleCase(project, 'high-na-bonded', OPTIONS, first?.index ?? 0)
    const { nominalDb, temperature } = evaluateCandidate(next.project, next.candidateId)
    expect(Math.max(nominalDb, temperature?.worstDb ?? 0)).toBeCloseTo(first?.lossDb ?? 0, 6)
  })

  test('leaves every other candidate and part as it was, and is a valid project', () => {
    const project = demoProject()
    const next = withSampleCase(project, 'high-na-bonded', OPTIONS, 7)
    expect(next.project.candidates.slice(0, -1)).toEqual(project.candidates)
    expect(next.project.fibres.slice(0, project.fibres.length)).toEqual(project.fibres)
    expect(next.project.facets).toHaveLength(project.facets.length + 1)
    expect(() => parseProject(JSON.parse(projectText(next.project)))).not.toThrow()
    const { worstCorner, nominalDb } = evaluateCandidate(next.project, next.candidateId)
    expect(worstCorner.lossDb).toBeCloseTo(nominalDb, 12)
  })
})

describe('a quantity by its path', () => {
  test('is found where there is one, and nowhere else', () => {
    const project = demoProject()
    expect(quantityAt(project, ['facets', 0, 'mfdX'])).toBe(project.facets[0]?.mfdX)
    expect(quantityAt(project, ['facets', 9, 'mfdX'])).toBeUndefined()
    expect(quantityAt(project, ['name', 'length'])).toBeUndefined()
    expect(quantityAt(project, ['facets', 0])).toBeUndefined()
  })
  test('gets a tolerance that is wider or narrower by a factor, and none where it had none', () => {
    const project = demoProject()
    const mfd = quantityAt(project, ['facets', 0, 'mfdX'])
    if (mfd === undefined) throw new Error('no mode')
    scaleTolerance(mfd, 0.5)
    expect(mfd.tolerance).toEqual({ plusMinus: 0.1, distribution: 'uniform' })
    const depth = quantityAt(project, ['facets', 0, 'depth'])
    if (depth === undefined) throw new Error('no depth')
    scaleTolerance(depth, 0.5)
    expect(depth.tolerance).toBeUndefined()
  })
})
