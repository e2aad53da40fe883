// The mode along a path as a small picture, for galleries and comparisons.

import { useMemo } from 'react'
import type { PathStop } from '../../figures/path/pathStops'
import { pathThumbnail } from '../../figures/path/pathStrip'
import { MarkupView } from './MarkupView'
import { usePalette } from './usePalette'

const WIDTH_PX = 168
const HEIGHT_PX = 44

export function PathThumbnail({
  stops,
  label,
}: {
  readonly stops: readonly PathStop[]
  /** What the picture shows, in words. */
  readonly label: string
}) {
  const palette = usePalette()
  const nodes = useMemo(() => [pathThumbnail(stops, WIDTH_PX, HEIGHT_PX, palette)], [stops, palette])
  return (
    <span className="thumbnail" role="img" aria-label={label}>
      <MarkupView nodes={nodes} />
    </span>
  )
}
