// What the drawing of one view of a joint needs to know: the bodies, the light and its labels share it.

import type { JointView } from '../../analysis/results/evaluation'
import type { JointBodies } from './jointBodies'
import type { JointPlane } from './jointPlane'
import type { Scale } from './scale'

export interface JointShapeOptions {
  readonly axis: 'x' | 'y'
  readonly view: JointView
  readonly plane: JointPlane
  readonly parts: JointBodies
  readonly scale: Scale
  readonly widthPx: number
}
