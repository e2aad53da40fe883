import { CAUTIONS } from '../cautions'
import { text } from '../document/blocks'
import type { SectionSpec } from '../section'

export const cautionsSection: SectionSpec = {
  id: 'cautions',
  title: 'Cautions',
  build: () => [text(CAUTIONS)],
}
