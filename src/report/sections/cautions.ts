import { CAUTIONS, LASER_CAUTIONS } from '../cautions'
import { text } from '../document/blocks'
import type { SectionSpec } from '../section'

export const cautionsSection: SectionSpec = {
  id: 'cautions',
  title: 'Cautions',
  build: () => [text(LASER_CAUTIONS), text(CAUTIONS)],
}
