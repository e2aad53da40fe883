// Tolerances of two-lens relays. Outside values: every assembly traced through its own moved guides and lenses, plane waves between them
// (recipes/relay_tolerances.py); its assemblies are drawn here again.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import type { Project } from '../../../src/model/schema/project'
import { normalQuantile } from '../../../src/numerics/normal'
import reference from '../../reference/data/relay-tolerances.json'
import { quantileOf, recurrencePoint } from '../support/recurrence'
import { designOf, endsOf, type ToleranceRow as Row } from '../support/toleranceRelays'

const DRAWS = 4096
const JOINT = new Set(['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll', 'combined', 'aberration'])
const AXES = ['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const
/** The recipe's order of axes: of which part, and which quantity of it. */
const DRAWN = [
  ...AXES.map((axis) => ['guide', axis] as const),
  ['guide', 'frontGap'] as const,
  ['guide', 'backGap'] as const,
  ...AXES.map((axis) => ['lens1', axis] as const),
  ...AXES.map((axis) => ['lens2', axis] as const),
]

/** Losses of the recipe's assemblies by the program, dB. */
function drawnDb(row: Row, project: Project): readonly number[] {
  const result = assemblyOf(project, 'relay')
  if (!result.ok) throw new Error('not computed')
  const { compiled } = result.value
  const slots = DRAWN.map(([owner, axis]) =>
    compiled.variables.findIndex(
      ({ path }) =>
        path.at(-1) === axis &&
        path[0] === 'candidates' &&
        (owner === 'guide' ? typeof path.at(-2) === 'number' : path.at(-2) === owner),
    ),
  )
  const ends = endsOf(row)
  return Array.from({ length: DRAWS }, (_, i) => {
    const v = Float64Array.from(compiled.nominal)
    recurrencePoint(i + 1, DRAWN.length).forEach((u, k) => {
      const by = k === 4 || k === 5 ? 2 * u - 1 : normalQuantile(u) / 2
      const slot = slots[k] ?? -1
      v[slot] = (v[slot] ?? Number.NaN) + by * (ends[k] ?? Number.NaN)
    })
    return compiled.lossDb(v)
  })
}

describe('tolerances of two-lens relays against rays through every assembly', () => {
  test.each(reference.rows)('conics of $lens1.conic and $lens2.conic', (row) => {
    const project = designOf(row)
    const { lines, nominalDb, rootSumSquare, worstCorner } = evaluateCandidate(project, 'relay')
    const joint = lines.filter(({ kind }) => JOINT.has(kind)).reduce((sum, { lossDb }) => sum + lossDb, 0)
    const drawn = drawnDb(row, project).map((lossDb) => lossDb - nominalDb)
    const off = {
      nominal: joint - row.nominalDb,
      rss: rootSumSquare.lossDb - nominalDb - (row.rssDb - row.nominalDb),
      p50: quantileOf(drawn, 0.5) - (row.p50Db - row.nominalDb),
      p95: quantileOf(drawn, 0.95) - (row.p95Db - row.nominalDb),
      p99: quantileOf(drawn, 0.99) - (row.p99Db - row.nominalDb),
      // At 7.6 to 7.8 dB, with all fourteen quantities at their ends.
      worstTenth: (worstCorner.lossDb - nominalDb - (row.worstDb - row.nominalDb)) / 10,
    }
    for (const [name, db] of Object.entries(off)) expect(Math.abs(db), `${name} ${db}`).toBeLessThan(0.025)
  })
})
