import { describe, expect, test } from 'vitest'
import { withSolvedField } from '../../../src/analysis/field/portShape'
import { evaluateCandidate } from '../../../src/analysis/index'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { demoProject } from '../../../src/model/project/demoProject'
import { parseProject } from '../../../src/model/project/parseProject'
import { coreValue } from '../../../src/model/quantity/quantity'
import type { FibreShape, ImportedShape } from '../../../src/model/schema/modeShape'
import type { Project } from '../../../src/model/schema/project'
import { packNumbers } from '../../../src/numerics/compactNumbers'
import { stepIndexMode } from '../../../src/optics/index'
import { familiesProject } from '../support/families'

/** The demo with the fibres that are given by their core, with the mode shape of the argument. */
function shaped(shape: FibreShape): Project {
  const project = structuredClone(demoProject())
  for (const fibre of project.fibres) if (fibre.mode.kind === 'core') fibre.modeShape = shape
  return project
}

/** A candidate of the demo whose first fibre is defined by its core and meets a gap. */
function cleaved(project: Project) {
  const candidate = project.candidates.find(({ chain: [first, join] }) => {
    const fibre = first?.kind === 'fibre' && first.tipId === undefined ? first.fibreId : ''
    return join?.kind === 'gap' && project.fibres.find(({ id }) => id === fibre)?.mode.kind === 'core'
  })
  if (candidate === undefined) throw new Error('the demo has no cleaved fibre')
  return candidate
}

const gaussianDb = (mfdUm: number, centre: number) => (x: number, y: number) =>
  Math.exp((-4 * ((x - centre) ** 2 + y ** 2)) / mfdUm ** 2)

/** A sampled Gaussian as an imported shape. */
function importedGaussian(mfdUm: number): ImportedShape {
  const [n, step] = [64, mfdUm / 20]
  const from = (-(n - 1) * step) / 2
  const at = gaussianDb(mfdUm, 0)
  const values = Float64Array.from({ length: n * n }, (_, i) =>
    Math.fround(at(from + (i % n) * step, from + Math.floor(i / n) * step)),
  )
  return {
    kind: 'imported',
    fileName: 'mode.csv',
    notes: [],
    nx: n,
    ny: n,
    dxUm: step,
    dyUm: step,
    x0Um: from,
    y0Um: from,
    re: packNumbers(values),
  }
}

describe('the budget by fields', () => {
  test('stays as it was where no shape is chosen, and where Gaussian is', () => {
    const project = demoProject()
    const { id } = cleaved(project)
    const plain = evaluateCandidate(project, id)
    expect(plain.lines.some((line) => line.kind === 'mode shape')).toBe(false)
    expect(evaluateCandidate(shaped({ kind: 'gaussian' }), id).nominalDb).toBe(plain.nominalDb)
  })

  test('holds the exact mode of the core as one line, and the lines still add up', () => {
    const project = shaped({ kind: 'core' })
    const { id } = cleaved(project)
    const plain = evaluateCandidate(demoProject(), id)
    const { lines, nominalDb, joints } = evaluateCandidate(project, id)
    const line = lines.find((each) => each.kind === 'mode shape')
    expect(lines.reduce((sum, each) => sum + each.lossDb, 0)).toBeCloseTo(nominalDb, 9)
    expect(nominalDb - plain.nominalDb).toBeCloseTo(line?.lossDb ?? Number.NaN, 9)
    const loss = joints[0]?.field?.loss
    if (loss === undefined || 'refusal' in loss) throw new Error('no loss by fields')
    expect(loss.fieldDb - loss.gaussianDb).toBeCloseTo(line?.lossDb ?? Number.NaN, 12)
    expect(loss.errorDb).toBeLessThan(1e-3)
  })

  test('a tip known by its spot is that spot at its working distance, however small', () => {
    const project = demoProject()
    const [facet] = project.facets
    if (facet === undefined) throw new Error('no facet')
    const known = evaluateCandidate(project, 'lensed-fibre').joints[0]?.joint
    // Spot and facet are the same Gaussian, the facet's by samples: nothing is left to correct.
    const spotUm = known?.emitterMfdXUm ?? 0
    facet.mfdX.value = facet.mfdY.value = spotUm
    facet.modeShape = importedGaussian(spotUm)
    const loss = evaluateCandidate(project, 'lensed-fibre').joints[0]?.field?.loss
    if (loss === undefined || 'refusal' in loss) throw new Error('no loss by fields')
    expect(known?.waistXUm).toBeGreaterThan(10)
    expect(Math.abs(loss.fieldDb)).toBeLessThan(2e-3)
  })

  test('the worst case moves by what the exact joint at its limits adds', () => {
    const project = shaped({ kind: 'core' })
    const { id } = cleaved(project)
    const plain = evaluateCandidate(demoProject(), id)
    const { worstCorner } = evaluateCandidate(project, id)
    const result = assemblyOf(project, id)
    if (!result.ok) throw new Error('cannot be computed')
    const { variables, nominal, joins } = result.value.compiled
    const corner = Float64Array.from(nominal)
    for (const { path, sign } of worstCorner.settings) {
      const slot = variables.findIndex((each) => each.path.join() === path.join())
      const variable = variables[slot]
      if (variable === undefined) throw new Error(`nothing at ${path.join()}`)
      corner[slot] = variable.nominal + sign * variable.spread.halfWidth
    }
    const loss = joins[0]?.view?.(corner)?.field?.loss
    if (loss === undefined || 'refusal' in loss) throw new Error('no loss by fields')
    const exactDb = loss.fieldDb - loss.gaussianDb
    const added = worstCorner.lossDb - plain.worstCorner.lossDb
    expect(Math.abs(added - exactDb), `${added} ${exactDb}`).toBeLessThan(0.02)
  })

  test('an imported Gaussian of the fibre’s own diameter changes next to nothing', () => {
    const demo = demoProject()
    const { id, chain } = cleaved(demo)
    const first = chain[0]
    const fibre = demo.fibres.find((each) => first?.kind === 'fibre' && each.id === first.fibreId)
    if (fibre?.mode.kind !== 'core') throw new Error('no core')
    const { bestGaussianMfdUm } = stepIndexMode({
      coreRadiusUm: coreValue(fibre.mode.coreDiameter, 'coreDiameter') / 2,
      na: coreValue(fibre.mode.na, 'na'),
      wavelengthUm: coreValue(demo.requirements.wavelength, 'wavelength'),
    })
    const { lines } = evaluateCandidate(shaped(importedGaussian(bestGaussianMfdUm)), id)
    const line = lines.find((each) => each.kind === 'mode shape')
    // What is left is that the field travels exactly, not paraxially, over the gap to a small mode.
    expect(Math.abs(line?.lossDb ?? Number.NaN)).toBeLessThan(0.05)
  })

  test('a profile that guides no mode is reported, and the Gaussian is used', () => {
    const project = shaped({
      kind: 'index profile',
      radiiUm: [0, 4, 4, 10],
      indices: [1.44, 1.44, 1.45, 1.45],
    })
    const { id } = cleaved(project)
    const result = evaluateCandidate(project, id)
    expect(result.nominalDb).toBe(evaluateCandidate(demoProject(), id).nominalDb)
    expect(
      result.validity.some(({ message }) => message.includes('must be above that of the cladding')),
    ).toBe(true)
  })

  test('a cross-section is used once it is solved, and until then a note in the budget says so', () => {
    const project = structuredClone(demoProject())
    const { id, chain } = cleaved(project)
    const last = chain.at(-1)
    const facet = project.facets.find((each) => last?.kind === 'facet' && each.id === last.facetId)
    if (facet === undefined) throw new Error('no facet')
    facet.crossSection = newCrossSection(0.2, 0.3)
    facet.modeShape = { kind: 'cross-section' }
    const waiting = evaluateCandidate(project, id)
    expect(waiting.validity.some(({ message }) => message.includes('is not solved yet'))).toBe(true)
    const shape = importedGaussian(3)
    if (shape.kind !== 'imported') throw new Error('imported')
    const re = Float64Array.from({ length: 64 * 64 }, (_, i) =>
      gaussianDb(3, 0)(shape.x0Um + (i % 64) * shape.dxUm, shape.y0Um + Math.floor(i / 64) * shape.dyUm),
    )
    const field = { ...shape, re, im: new Float64Array(64 * 64), wavelengthUm: 1.6537, index: 1 }
    project.facets = project.facets.map((each) =>
      each.id === facet.id ? withSolvedField(each, { field, powerShare: 1 }, 'key') : each,
    )
    const solved = evaluateCandidate(project, id)
    expect(solved.lines.some((line) => line.kind === 'mode shape')).toBe(true)
  })
})

describe('where else fields apply', () => {
  /** The families of candidates with exact cores in all their fibres. */
  function exactFamilies(): Project {
    const project = familiesProject()
    for (const fibre of project.fibres) if (fibre.mode.kind === 'core') fibre.modeShape = { kind: 'core' }
    return project
  }

  test('every family still adds up with exact cores, and corners stay near', () => {
    const [plain, exact] = [familiesProject(), exactFamilies()]
    let changed = 0
    for (const { id } of plain.candidates) {
      const [before, after] = [evaluateCandidate(plain, id), evaluateCandidate(exact, id)]
      expect(after.lines.reduce((sum, line) => sum + line.lossDb, 0)).toBeCloseTo(after.nominalDb, 9)
      // Fields move with the tolerances: the worst case stays near the nominal difference, not at it.
      const difference = after.nominalDb - before.nominalDb
      expect(Math.abs(after.worstCorner.lossDb - before.worstCorner.lossDb - difference)).toBeLessThan(1.5)
      if (after.lines.some((line) => line.kind === 'mode shape')) changed++
    }
    expect(changed).toBeGreaterThan(2)
  })

  test('an abrupt splice of two cores is the joint of their exact modes', () => {
    const project = exactFamilies()
    const candidate = project.candidates.find(({ chain }) => chain.some((each) => each.kind === 'splice'))
    const splice = candidate?.chain.find((each) => each.kind === 'splice')
    if (candidate === undefined || splice?.kind !== 'splice') throw new Error('no splice')
    splice.basis = 'abrupt'
    const { lines } = evaluateCandidate(project, candidate.id)
    const own = lines.filter((line) => line.elementId === splice.id)
    expect(own.map((line) => line.kind)).toEqual(['splice', 'mode shape'])
    // Two exact modes are more alike in shape than their Gaussians say, so that the field loses no more.
    expect(own[1]?.lossDb).toBeLessThan(0.05)
    expect((own[0]?.lossDb ?? 0) + (own[1]?.lossDb ?? 0)).toBeGreaterThan(0)
  })
})

describe('shapes in a project file', () => {
  test('survive a round trip', () => {
    const project = shaped(importedGaussian(10))
    expect(parseProject(JSON.parse(JSON.stringify(project)))).toEqual(project)
  })

  test('are refused with their place where they cannot be', () => {
    const broken = shaped({ kind: 'index profile', radiiUm: [1, 4], indices: [1.45, 1.44, 1.44] })
    expect(() => parseProject(JSON.parse(JSON.stringify(broken)))).toThrow(/radius is 1; must be 0/)
    expect(() => parseProject(JSON.parse(JSON.stringify(broken)))).toThrow(/indices has 3 entries/)
    const short = importedGaussian(10)
    if (short.kind === 'imported') short.nx = 32
    expect(() => parseProject(JSON.parse(JSON.stringify(shaped(short))))).toThrow(
      /re has 4096 numbers; must be nx times ny, 2048/,
    )
  })
})
