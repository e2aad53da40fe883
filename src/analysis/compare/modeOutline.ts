// The size of the mode along the path of a design as a small outline: every element has a stretch of its own, not to scale
// along z, so that families can be told apart at a glance.

import type { Candidate } from '../../model/schema/candidate'
import type { Evaluation, Port } from '../results/evaluation'

export interface OutlinePoint {
  /** Place along the path, 0 to 1. */
  readonly at: number
  /** Mode-field diameter across the picture, um. */
  readonly mfdUm: number
}

/** Stretch of each kind of element; only the ratios matter. */
const STRETCH = {
  fibre: 1.3,
  stub: 1,
  'taper chip': 1,
  facet: 1,
  splice: 0.35,
  gap: 0.45,
  relay: 1.8,
} as const

const mean = (x: number, y: number) => Math.sqrt(x * y)
const portUm = ({ mfdXUm, mfdYUm }: Port) => mean(mfdXUm, mfdYUm)
/** A lensed tip narrows the mode on the way to its focus; inside the fibre it is as wide as the fibre makes it. */
const insideUm = (port: Port) =>
  port.tip === undefined ? portUm(port) : mean(port.tip.modeMfdXUm, port.tip.modeMfdYUm)

/** Corner points of the outline; between two of them the mode changes smoothly. */
export function modeOutline({ chain }: Candidate, evaluation: Evaluation): readonly OutlinePoint[] {
  const total = chain.reduce((sum, { kind }) => sum + STRETCH[kind], 0)
  let z = 0
  return chain.flatMap((element): readonly OutlinePoint[] => {
    const from = z / total
    z += STRETCH[element.kind]
    const to = z / total
    if (element.kind === 'relay') {
      const wide = evaluation.relays.find(({ elementId }) => elementId === element.id)?.collimatedMfdUm
      if (wide === undefined) return []
      const shoulder = (to - from) * 0.22
      return [
        { at: from + shoulder, mfdUm: wide },
        { at: to - shoulder, mfdUm: wide },
      ]
    }
    const guide = evaluation.guides.find(({ elementId }) => elementId === element.id)
    if (guide === undefined) return []
    return [
      { at: from, mfdUm: portUm(guide.entry) },
      { at: to, mfdUm: insideUm(guide.exit) },
    ]
  })
}
