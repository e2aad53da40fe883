// Whether the fibre side fits the chip edge, where edge or outline is given.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { plainText, roundedTo } from '../../numerics/numberText'
import { clearanceFindings, contactText } from '../clearance/findings'
import type { Evaluation } from '../results/evaluation'
import { type Verdict, verdict } from '../results/verdict'

const short = (um: number) => plainText(roundedTo(um, 1))

export function clearanceVerdict(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): readonly Verdict[] {
  const findings = clearanceFindings(project, candidate, evaluation)
  const tightest = findings
    .flatMap(({ contact, gapUm }) => (contact === null ? [] : [{ contact, gapUm }]))
    .toSorted((a, b) => a.gapUm - a.contact.gapUm - (b.gapUm - b.contact.gapUm))
    .at(0)
  if (findings.length === 0) return []
  const label = 'Fits the chip edge'
  if (tightest === undefined) return [verdict('clearance', label, 'met', 'no obstruction')]
  const { contact, gapUm } = tightest
  const status = contact.gapUm <= gapUm ? 'met' : 'not met'
  return [
    {
      ...verdict('clearance', label, status, `${contactText(contact)}; entered gap ${short(gapUm)} µm`),
      value: `${short(Math.max(0, contact.gapUm))}`,
      limit: `≤ ${short(gapUm)} µm`,
    },
  ]
}
