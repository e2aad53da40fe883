// What a path keeps from one vector of values to the next never shows: it answers as one that is compiled for that vector alone.

import { describe, expect, test } from 'vitest'
import { type CompiledCandidate, compileCandidate } from '../../../src/analysis/path/compileCandidate'
import type { Values } from '../../../src/analysis/path/vector/valueReaders'
import { demoProject } from '../../../src/model/project/demoProject'

const demo = demoProject()
// Its real lenses make every compilation a search of seconds; the relay has tests of its own.
const designs = demo.candidates.filter(({ chain }) => chain.every(({ kind }) => kind !== 'relay'))

function compiled(id: string): CompiledCandidate {
  const result = compileCandidate(demo, id)
  if (!result.ok) throw new Error(result.issues[0]?.message)
  return result.value
}

/** Vectors that differ from the one before in one value each: every value moves, at two temperatures and back. */
function vectors({ nominal, variables, slots }: CompiledCandidate): readonly Values[] {
  const operating = new Set([slots.temperatureRise, slots.polarisation])
  const moved = variables.flatMap(({ spread }, at) => {
    if (operating.has(at)) return []
    const v = Float64Array.from(nominal)
    v[at] = (v[at] ?? 0) * 1.01 + (spread.halfWidth > 0 ? spread.halfWidth : 1e-3)
    return [v]
  })
  return moved.flatMap((v) =>
    [0, 40, -25, 0].map((riseK) =>
      v.with(slots.temperatureRise, riseK).with(slots.polarisation, riseK === 40 ? 2 : 0),
    ),
  )
}

describe('a path answers for each vector as if it had seen no other', () => {
  test.each(designs.map(({ id }) => id))('%s', (id) => {
    const kept = compiled(id)
    for (const v of vectors(kept)) {
      const alone = compiled(id).lossDb(Float64Array.from(v))
      expect(kept.lossDb(v)).toBe(alone)
    }
  })
})
