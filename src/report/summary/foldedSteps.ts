// The steps of a budget for a figure with room for few: the largest along the path, and all others as one.

interface Step {
  readonly label: string
  readonly lossDb: number
  /** How many contributions it represents; one where absent. */
  readonly parts?: number
}

/** Rounds to nothing in a budget of two decimals. */
export const isSlight = ({ lossDb }: { readonly lossDb: number }): boolean => Math.abs(lossDb) < 0.005

/** At most `most` steps that do not round to nothing, in the order of the path; the rest is the last one. */
export function foldedSteps(lines: readonly Step[], most: number): readonly Step[] {
  const kept = new Set(
    lines
      .filter((line) => !isSlight(line))
      .toSorted((a, b) => Math.abs(b.lossDb) - Math.abs(a.lossDb))
      .slice(0, most),
  )
  const others = lines.filter((line) => !kept.has(line))
  const restDb = others.reduce((sum, { lossDb }) => sum + lossDb, 0)
  const own = lines.filter((line) => kept.has(line)).map(({ label, lossDb }) => ({ label, lossDb }))
  return others.length === 0
    ? own
    : [...own, { label: `${others.length} others`, lossDb: restDb, parts: others.length }]
}
