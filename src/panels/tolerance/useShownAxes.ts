// The two axes over which a tolerance is drawn.

import { useState } from 'react'
import type { MisalignmentAxis } from '../../optics/index'

export interface ShownAxes {
  readonly x: MisalignmentAxis
  readonly y: MisalignmentAxis
  readonly setX: (axis: MisalignmentAxis) => void
  readonly setY: (axis: MisalignmentAxis) => void
}

export function useShownAxes(): ShownAxes {
  const [x, setX] = useState<MisalignmentAxis>('offsetXUm')
  const [y, setY] = useState<MisalignmentAxis>('offsetYUm')
  return { x, y, setX, setY }
}
