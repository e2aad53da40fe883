// Lensed tips off their axis at the worst case, and splices of cores of other sizes, against direct sums.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { demoProject } from '../../../src/model/project/demoProject'
import type { Quantity } from '../../../src/model/quantity/quantity'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { doubledGrid } from '../../../src/optics/field/fieldGrid'
import {
  ALIGNED_POSE,
  fieldEfficiency,
  fieldJointOn,
  fieldPairOf,
  firstGrid,
  lossDb,
} from '../../../src/optics/index'
import { familiesProject } from '../support/families'

const within = (value: number, unit: 'um' | 'deg', plusMinus: number): Quantity => ({
  ...quantityOf(value, unit),
  tolerance: { plusMinus, distribution: 'normal' },
})

const bare = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (name, each) => (name === 'tolerance' ? undefined : each)))

describe('a lensed tip off its axis', () => {
  test('the worst case is that of the tip’s real field summed at the corner', () => {
    const project = bare(demoProject())
    const candidate = project.candidates.find(({ chain: [first] }) => first?.kind === 'fibre' && first.tipId)
    const gap = candidate?.chain[1]
    if (candidate === undefined || gap?.kind !== 'gap') throw new Error('no lensed fibre')
    for (const each of project.converters) {
      if (each.kind === 'lensed tip') each.tip = { kind: 'radius', radius: quantityOf(8, 'um') }
    }
    candidate.mount = undefined
    Object.assign(gap, {
      bondShift: undefined,
      drift: undefined,
      aligned: [],
      gap: within(10.5, 'um', 3),
      offsetX: within(0, 'um', 0.8),
      offsetY: within(0, 'um', 0.8),
      tiltX: within(0, 'deg', 1),
      tiltY: within(0, 'deg', 1),
    })
    const { nominalDb, worstCorner, joints } = evaluateCandidate(project, candidate.id)
    const view = joints[0]
    if (view?.field === undefined) throw new Error('no real tip')
    const at = { ...view.joint }
    const axes = {
      gap: 'gapUm',
      offsetX: 'offsetXUm',
      offsetY: 'offsetYUm',
      tiltX: 'tiltXRad',
      tiltY: 'tiltYRad',
    }
    const reach = {
      gapUm: 3,
      offsetXUm: 0.8,
      offsetYUm: 0.8,
      tiltXRad: Math.PI / 180,
      tiltYRad: Math.PI / 180,
    }
    for (const { path, sign } of worstCorner.settings) {
      const axis = axes[path.at(-1) as keyof typeof axes] as keyof typeof reach
      at[axis] += sign * reach[axis]
    }
    const pair = fieldPairOf(view.field.spec)
    const { efficiency } = fieldJointOn(pair, doubledGrid(firstGrid(pair, [at])))
    const added = lossDb(efficiency(at)) - lossDb(efficiency(view.joint))
    expect(added).toBeGreaterThan(2)
    expect(Math.abs(worstCorner.lossDb - nominalDb - added)).toBeLessThan(0.02)
  })
})

describe('an abrupt splice of exact modes', () => {
  test('a core of another diameter loses what the exact modes of both cores lose', () => {
    const project = bare(familiesProject())
    const candidate = project.candidates.find(({ chain }) => chain.some((each) => each.kind === 'splice'))
    const at = candidate?.chain.findIndex((each) => each.kind === 'splice') ?? -1
    const [near, splice, far] = candidate?.chain.slice(at - 1, at + 2) ?? []
    if (candidate === undefined || splice?.kind !== 'splice') throw new Error('no splice')
    if (near?.kind !== 'fibre' || far?.kind !== 'stub') throw new Error('no fibres at the splice')
    splice.basis = 'abrupt'
    const core = (id: string, diameterUm: number, na: number, plusMinus: number) => {
      const fibre = project.fibres.find((each) => each.id === id)
      if (fibre === undefined) throw new Error('no fibre')
      fibre.mode = { kind: 'core', coreDiameter: quantityOf(diameterUm, 'um'), na: quantityOf(na, '1') }
      if (plusMinus > 0) fibre.mode.coreDiameter = within(diameterUm, 'um', plusMinus)
      fibre.modeShape = { kind: 'core' }
    }
    core(near.fibreId, 8.2, 0.12, 0)
    core(far.fibreId, 4.4, 0.2, 0.4)
    const { rootSumSquare } = evaluateCandidate(project, candidate.id)
    const spec = (diameterUm: number) =>
      ({
        emitter: side(8.2, 0.12),
        receiver: side(diameterUm, 0.2),
        wavelengthUm: project.requirements.wavelength.value / 1000,
        index: 1.444,
        propagation: 'exact',
      }) as const
    const loss = (diameterUm: number) =>
      lossDb(fieldEfficiency(fieldPairOf(spec(diameterUm)), { ...ALIGNED_POSE, gapUm: 0 }).efficiency)
    const added = Math.max(loss(4.0), loss(4.8)) - loss(4.4)
    const own = rootSumSquare.contributions.find(({ path }) => path.includes('coreDiameter'))
    expect(own).toBeDefined()
    const spliceOnly = evaluatedSplice(project, candidate.id, splice.id)
    expect(Math.abs(spliceOnly - added)).toBeLessThan(0.005)
    // The whole path adds its lines up, also where the core is not the nominal one.
    const compiled = compileCandidate(project, candidate.id)
    if (!compiled.ok) throw new Error('not compiled')
    const { variables, nominal, lines, lossDb: wholeDb } = compiled.value
    const slot = variables.findIndex(
      ({ path }) => path.at(-1) === 'coreDiameter' && path[1] === farAt(project, far),
    )
    for (const diameterUm of [4.4, 4.7]) {
      const v = nominal.with(slot, diameterUm)
      expect(wholeDb(v)).toBeCloseTo(
        lines.reduce((sum, line) => sum + line.lossDb(v), 0),
        9,
      )
    }
  })
})

const farAt = ({ fibres }: ReturnType<typeof demoProject>, { fibreId }: { readonly fibreId: string }) =>
  fibres.findIndex(({ id }) => id === fibreId)

const side = (diameterUm: number, na: number) =>
  ({
    mode: { kind: 'step index', coreRadiusUm: diameterUm / 2, na },
    tip: null,
    stretchX: 1,
    stretchY: 1,
  }) as const

/** What both lines of a splice gain at the worse end of the one toleranced core, dB. */
function evaluatedSplice(
  project: ReturnType<typeof demoProject>,
  candidateId: string,
  spliceId: string,
): number {
  const at = (diameterUm: number | null) => {
    const changed = structuredClone(project)
    const result = compileCandidate(changed, candidateId)
    if (!result.ok) throw new Error('not compiled')
    const { variables, nominal, lines } = result.value
    const v = Float64Array.from(nominal)
    const slot = variables.findIndex(({ spread }) => spread.halfWidth > 0)
    if (diameterUm !== null) v[slot] = diameterUm
    return lines
      .filter(({ elementId }) => elementId === spliceId)
      .reduce((sum, line) => sum + line.lossDb(v), 0)
  }
  return Math.max(at(4.0), at(4.8)) - at(null)
}
