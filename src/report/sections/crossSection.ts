import { crossSections } from '../../figures/drawing/crossSection'
import { figureBlock } from '../document/figureBlock'
import type { SectionSpec } from '../section'

export const crossSectionSection: SectionSpec = {
  id: 'cross-section',
  title: 'Cross-section',
  build: ({ project, choice }) =>
    choice === null
      ? []
      : crossSections(project, choice.candidate.candidate, choice.candidate.evaluation).map((each) =>
          figureBlock(each),
        ),
}
