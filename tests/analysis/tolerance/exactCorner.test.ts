import { describe, expect, test } from 'vitest'
import type { CompiledCandidate } from '../../../src/analysis/path/compileCandidate'
import { lossesOverTemperature } from '../../../src/analysis/temperature/worstTemperature'
import { cornerBeyondDb, exactCorner, fitsMiss, missedDb } from '../../../src/analysis/tolerance/exactCorner'
import { worstCorner } from '../../../src/analysis/tolerance/tolerances'
import { quantityOf } from '../../../src/model/quantity/quantity'

const variable = (name: string) => ({
  label: name,
  path: [name],
  nominal: 0,
  rule: 'offset',
  spread: { halfWidth: 1, distribution: 'uniform', coverage: 1, direction: 'both', share: 'row' },
})

/** Three quantities at ±1, of which a joint loses `fitted` by its fit and `exact` in truth. */
function compiledOf(fitted: (v: Float64Array) => number, exact: ((v: Float64Array) => number) | 'pending') {
  const variables = ['a', 'b', 'c'].map(variable)
  const lossDb = (v: Float64Array) => fitted(v)
  return {
    variables,
    nominal: new Float64Array(3),
    lossDb,
    terms: [{ lossDb, reads: new Set([0, 1, 2]) }],
    joins: [
      {
        beyondFitDb: (at: readonly Float64Array[]) =>
          exact === 'pending' ? exact : at.map((v) => exact(v) - fitted(v)),
      },
    ],
  } as unknown as CompiledCandidate
}

const sum = (v: Float64Array) => v.reduce((total, each) => total + each, 0)
const signs = ({ settings }: ReturnType<typeof exactCorner>) => settings.map(({ sign }) => sign)

describe('the worst case by exact joints', () => {
  test('the loss is the exact one at the corner that the fit found', () => {
    const compiled = compiledOf(
      (v) => 5 + sum(v),
      (v) => 5.2 + 1.1 * sum(v),
    )
    const found = exactCorner(compiled, worstCorner(compiled))
    expect(found.lossDb).toBeCloseTo(8.5, 12)
    expect(found.isProvisional).toBeUndefined()
    expect(cornerBeyondDb(compiled, found)).toBeCloseTo(0.5, 12)
  })

  test('a next corner, which the fit puts just below, is taken where it is worse in truth', () => {
    // The fit prefers c at +1 by 0.02 dB; the exact joint prefers c at -1 by 0.1 dB.
    const compiled = compiledOf(
      (v) => 4 + (v[0] ?? 0) + (v[1] ?? 0) + 0.01 * (v[2] ?? 0),
      (v) => 4 + (v[0] ?? 0) + (v[1] ?? 0) - 0.05 * (v[2] ?? 0),
    )
    const found = exactCorner(compiled, worstCorner(compiled))
    expect(found.lossDb).toBeCloseTo(6.05, 12)
    expect(signs(found)).toEqual([1, 1, -1])
  })

  test('two signs together are looked at, as offset and tilt work together', () => {
    const pair = (v: Float64Array) => (v[0] ?? 0) * (v[1] ?? 0) + (v[2] ?? 0)
    const compiled = compiledOf(
      (v) => 4 + pair(v) + 0.01 * (v[0] ?? 0),
      (v) => 4 + pair(v) - 0.05 * (v[0] ?? 0),
    )
    const found = exactCorner(compiled, worstCorner(compiled))
    expect(found.lossDb).toBeCloseTo(6.05, 12)
    expect(signs(found)).toEqual([-1, -1, 1])
  })

  test('while the sums are made elsewhere the loss of the fit stays and is marked provisional', () => {
    const compiled = compiledOf((v) => 5 + sum(v), 'pending')
    const found = exactCorner(compiled, worstCorner(compiled))
    expect(found.lossDb).toBe(8)
    expect(found.isProvisional).toBe(true)
    expect(cornerBeyondDb(compiled, found)).toBe(0)
  })
})

describe('a fit that misses its target', () => {
  /** Half a dB more in truth at every state, of each of two joints. */
  const halfMore = (fitMissesDb?: number) => {
    const compiled = compiledOf((v) => 1 + 0.01 * (v[0] ?? 0), 'pending')
    const join = {
      beyondFitDb: (at: readonly Float64Array[]) => at.map((_, i) => 0.5 + i),
      ...(fitMissesDb !== undefined && { fitMissesDb }),
    }
    const slots = { temperatureRise: 0 }
    const mount = { assemblyTemperature: quantityOf(20, 'degC') }
    return { ...compiled, joins: [join, join], slots, candidate: { mount } } as unknown as CompiledCandidate
  }

  test('is one of any joint, and the joints add up', () => {
    expect(fitsMiss(halfMore(0.02))).toBe(true)
    expect(fitsMiss(halfMore())).toBe(false)
    const corners = [{ v: new Float64Array(3) }, { v: new Float64Array(3) }]
    expect(missedDb(halfMore(0.02), corners)).toEqual([1, 3])
  })

  test('is replaced by its exact sums over temperature, and one that meets it is read as it is', () => {
    // 0.01 dB a kelvin from 20 °C: 0.8 and 1.4 dB by the fit; the two joints lose 1 and 3 dB more.
    const temperatures = Float64Array.of(0, 60)
    expect([...lossesOverTemperature(halfMore(), temperatures)]).toEqual([0.8, 1.4])
    expect([...lossesOverTemperature(halfMore(0.02), temperatures)]).toEqual([1.8, 4.4])
  })
})
