import { jointDrawings } from '../../../figures/drawing/jointDrawings'
import { mountStacks } from '../../../figures/path/pathMount'
import { pathStops } from '../../../figures/path/pathStops'
import { pathFigure } from '../../../figures/path/pathStrip'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'
import { leavesOutSummary } from '../summary'

/** The path itself is on the first page, where there is one. */
function build({ project, choice, summary }: SheetContext) {
  if (choice === null) return []
  const { candidate, evaluation } = choice.candidate
  const path = pathFigure(
    'path',
    candidate.name,
    pathStops(project, candidate, evaluation),
    mountStacks(candidate),
  )
  const onSummary = summary !== null && !leavesOutSummary({ project })
  return [...(onSummary ? [] : [path]), ...jointDrawings(project, candidate, evaluation)].map((each) =>
    figureBlock(each),
  )
}

export const crossSectionSection: SectionSpec = { id: 'cross-section', title: 'Cross-section', build }
