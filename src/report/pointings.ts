// How guides are pointed against each other, in words for orders and process sheets.

import { compileCandidate } from '../analysis/path/compileCandidate'
import type { Project } from '../model/schema/project'
import { fixedText } from '../numerics/numberText'

const DEG = 180 / Math.PI

/** How each guide in front of a gap or relay is to be turned against the one behind it; none where nothing is turned. */
export function pointingsOf(project: Project, candidateId: string): ReadonlyMap<string, string> {
  const result = compileCandidate(project, candidateId)
  if (!result.ok) return new Map()
  const { joins, nominal } = result.value
  return new Map(
    joins.flatMap(({ view }): readonly (readonly [string, string])[] => {
      if (view === null) return []
      const { elementId, pointingXRad, pointingYRad } = view(nominal)
      const turns = [
        ['x', pointingXRad],
        ['y', pointingYRad],
      ] as const
      const text = turns
        .filter(([, rad]) => rad !== 0)
        .map(([axis, rad]) => `axis tilted by ${fixedText(rad * DEG, 2)}° in ${axis}`)
      return text.length === 0 ? [] : [[elementId, text.join(', ')]]
    }),
  )
}
