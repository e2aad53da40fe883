import { crossSections } from '../figures/crossSection'
import type { SectionSpec } from '../section'

export const crossSectionSection: SectionSpec = {
  id: 'cross-section',
  title: 'Cross-section',
  build: ({ project, choice }) => (choice === null ? [] : crossSections(project, choice.candidate)),
}
