// A project as long as a review gets: eight candidates, forty lines in the longest budget. All numbers are invented.

import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Candidate } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject } from '../../analysis/support/families'
import { twoDesigns } from '../../support/twoDesigns'

const CANDIDATES = 8
const LINES = 40

export function longProject(): Project {
  const project = familiesProject()
  const demo = twoDesigns()
  const all = [...project.candidates, ...demo.candidates]
  const own = Array.from({ length: CANDIDATES }, (_, i): Candidate => {
    const from = all[i % all.length]
    if (from === undefined) throw new Error('no design to copy')
    return { ...structuredClone(from), id: `candidate-${i}`, name: `${from.name}, variant ${i + 1}` }
  })
  const [first] = own
  if (first !== undefined) {
    first.userLines = Array.from({ length: LINES - 9 }, (_, i) => ({
      id: `line-${i}`,
      label: `Line ${i + 1} of what else the module loses between connector and chip`,
      kind: 'user line' as const,
      loss: quantityOf(0.01 * (i + 1), 'dB', 'estimate', 0.005),
    }))
  }
  const parts = {
    media: [...project.media, ...demo.media].filter(
      (each, i, list) => list.findIndex(({ id }) => id === each.id) === i,
    ),
  }
  return { ...project, ...parts, candidates: own, review: { chosenId: 'candidate-0' } }
}
