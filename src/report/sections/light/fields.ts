// What the fields of the modes make of a joint where Gaussians are not the whole truth.

import { jointWords } from '../../../model/designs/jointNames'
import { significantText } from '../../../numerics/numberText'
import { type Cell, table } from '../../document/blocks'
import { fixedCell } from '../../document/cells'
import type { SectionSpec } from '../../section'
import { gradedCores } from './gradedCores'

export const fieldsSection: SectionSpec = {
  id: 'fields',
  title: 'Non-Gaussian modes',
  build: ({ project, choice }) => {
    const joints = choice?.candidate.evaluation.joints ?? []
    const chain = choice?.candidate.candidate.chain ?? []
    const rows = joints.flatMap(({ elementId, field }): readonly (readonly Cell[])[] => {
      if (field === undefined) return []
      const { nearName, farName, loss, moves } = field
      const about = [jointWords(chain, elementId), `${nearName} to ${farName}`]
      if ('refusal' in loss) return [[...about, '', '', '', '', `not used: ${loss.refusal}`]]
      return [
        [
          ...about,
          fixedCell(loss.gaussianDb, 3),
          fixedCell(loss.fieldDb, 3),
          fixedCell(loss.fieldDb - loss.gaussianDb, 3),
          {
            value: loss.errorDb,
            text: loss.errorDb < 1e-4 ? 'under 0.0001' : significantText(loss.errorDb, 1),
          },
          moves ?? 'tolerances are applied to the Gaussian joint; the difference is held constant',
        ],
      ]
    })
    const graded = choice === null ? [] : gradedCores(project, choice.candidate.candidate)
    if (rows.length === 0) return graded
    return [
      ...graded,
      table(
        'Loss of each joint, field overlap and Gaussian modes',
        [
          'Joint',
          'Modes',
          { label: 'Gaussian', unit: 'dB' },
          { label: 'Field overlap', unit: 'dB' },
          { label: 'Difference', unit: 'dB' },
          { label: 'Numerical error', unit: 'dB' },
          'Note',
        ],
        rows,
      ),
    ]
  },
}
