// What the drawing of one section through a joint needs to know: the bodies, the light and its labels share it.

import type { JointView } from '../../analysis/results/evaluation'
import type { Scale } from './scale'
import type { SectionParts } from './sectionParts'
import type { SectionPlane } from './sectionPlane'

export interface SectionOptions {
  readonly axis: 'x' | 'y'
  readonly view: JointView
  readonly plane: SectionPlane
  readonly parts: SectionParts
  readonly scale: Scale
  readonly widthPx: number
}
