// Which quantities each summand of a loss reads is known when the chain is compiled. The watched vector records what is read in
// truth, and the whole total what a moved one must give.

import { expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { movingTotal } from '../../../src/analysis/tolerance/movingTotal'
import { demoProject } from '../../../src/model/index'
import { spreadEnds } from '../../../src/model/quantity/spread'
import type { Project } from '../../../src/model/schema/project'
import { largestProject } from '../../support/largestProject'
import { familiesProject, relayElement } from '../support/families'

function compiled(project: Project, id: string) {
  const result = compileCandidate(project, id)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join('\n'))
  return result.value
}

/** The vector, and the slots that are read from it. */
function watched(values: Float64Array) {
  const read = new Set<number>()
  const vector = new Proxy(values, {
    get: (target, key) => {
      if (typeof key === 'string' && /^\d+$/.test(key)) read.add(Number(key))
      const found: unknown = Reflect.get(target, key, target)
      if (typeof found !== 'function') return found
      for (let slot = 0; slot < target.length; slot++) read.add(slot)
      return found.bind(target)
    },
  })
  return { vector, read }
}

const PROJECTS = [
  ['demo', demoProject()],
  ['families', familiesProject(relayElement())],
  ['largest', largestProject(1)],
] as const
const DESIGNS = PROJECTS.flatMap(([name, project]) =>
  project.candidates.map(({ id }) => [`${name} ${id}`, project, id] as const),
)

test.each(DESIGNS)('%s: no summand reads a place that it is not said to read', (_, project, id) => {
  const { terms, variables, nominal } = compiled(project, id)
  const corners = [-1, 0, 1, 2].map((kind) =>
    Float64Array.from(variables, ({ spread, nominal }, at) => {
      const [low, high] = spreadEnds(spread)
      const sign = kind === 2 ? (at % 3) - 1 : kind
      return nominal + (sign < 0 ? low : sign > 0 ? high : 0)
    }),
  )
  for (const values of [nominal, ...corners]) {
    for (const term of terms) {
      const { vector, read } = watched(values)
      term.lossDb(vector)
      expect([...read].filter((slot) => !term.reads.has(slot))).toEqual([])
    }
  }
})

test.each(DESIGNS)('%s: a total moved step by step is the whole one to the last digit', (_, project, id) => {
  const chain = compiled(project, id)
  const total = movingTotal(chain)
  const v = Float64Array.from(chain.nominal)
  for (const [at, { spread, nominal }] of chain.variables.entries()) {
    if (spread.halfWidth === 0) continue
    const [low, high] = spreadEnds(spread)
    total.begin()
    total.set(at, nominal + low)
    total.totalDb()
    total.undo()
    v[at] = nominal + high
    total.begin()
    total.set(at, nominal + high)
    expect(total.totalDb()).toBe(chain.lossDb(v))
  }
})

test.each(DESIGNS)(
  '%s: two places moved together give the whole loss, whatever was tried before',
  (_, project, id) => {
    const chain = compiled(project, id)
    const total = movingTotal(chain)
    const v = Float64Array.from(chain.nominal)
    const moved = chain.variables.flatMap(({ spread }, at) => (spread.halfWidth > 0 ? [at] : [])).slice(0, 12)
    const ends = (at: number) => spreadEnds((chain.variables[at] as (typeof chain.variables)[number]).spread)
    /** The loss with the slots at those ends; kept or taken back. */
    const move = (slots: readonly number[], end: 0 | 1, keep: boolean) => {
      const tried = Float64Array.from(v)
      total.begin()
      for (const at of slots) {
        tried[at] = (chain.nominal[at] ?? Number.NaN) + ends(at)[end]
        total.set(at, tried[at] ?? Number.NaN)
      }
      expect(total.totalDb()).toBe(chain.lossDb(tried))
      if (keep) v.set(tried)
      else total.undo()
    }
    for (const [i, one] of moved.entries()) {
      for (const at of moved) move([at], 0, false)
      for (const other of moved.slice(i + 1)) {
        move([one, other], 0, false)
        move([one, other], 1, false)
      }
      move([one], i % 2 === 0 ? 1 : 0, true)
    }
  },
)

test('a place that is first moved to 0 after other moves were kept is evaluated there', () => {
  const term = (slot: number) => ({
    reads: new Set([slot]),
    lossDb: (values: Float64Array) => 10 * slot + ((values[slot] as number) + 3) ** 2,
  })
  const chain = { terms: [term(0), term(1)], nominal: Float64Array.of(1, 2) }
  const total = movingTotal(chain as unknown as Parameters<typeof movingTotal>[0])
  for (const kept of [5, 6, 7]) {
    total.begin()
    total.set(0, kept)
    expect(total.totalDb()).toBe((kept + 3) ** 2 + 10 + 25)
    total.begin()
    total.set(1, 0)
    expect(total.totalDb()).toBe((kept + 3) ** 2 + 10 + 9)
    total.undo()
  }
})

test('no summand reads cores that are far apart in a path, neighbours share one', () => {
  const chain = compiled(largestProject(1), 'cleaved-dry')
  const slot = (fibre: number) =>
    chain.variables.findIndex(({ label }) => label === `core diameter of Fibre ${fibre}`)
  const together = (one: number, other: number) =>
    chain.terms.some(({ reads }) => reads.has(slot(one)) && reads.has(slot(other)))
  expect(together(1, 2)).toBe(true)
  expect(together(1, 9)).toBe(false)
})
