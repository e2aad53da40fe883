// How drawings to scale look: each class of shape with its colours and lines. The page styles the same classes, because there
// they answer to the pointer; files and paper carry the look with every shape.

import type { Markup } from '../render/markup'
import { DASHES, type Palette, WIDTH_PX } from '../render/palette'

type Attributes = Readonly<Record<string, string | number>>

const AXIS_DASH = '14 4 2 4'

function looks(palette: Palette): Readonly<Record<string, Attributes>> {
  const body = { fill: palette.glass, stroke: palette.glassEdge, 'stroke-width': WIDTH_PX.fine }
  const halo = {
    fill: palette.ink,
    'paint-order': 'stroke',
    stroke: palette.paper,
    'stroke-width': 4,
    'stroke-linejoin': 'round',
  }
  return {
    'drawn-body': body,
    'drawn-keep-out': {
      fill: palette.bad,
      'fill-opacity': 0.14,
      stroke: palette.bad,
      'stroke-dasharray': DASHES.dot,
    },
    'drawn-below': { ...body, 'fill-opacity': 0.5, 'stroke-dasharray': DASHES.dash },
    'drawn-above': { ...body, fill: 'none', 'stroke-dasharray': DASHES.dot },
    'drawn-lens': { ...body, stroke: palette.ink },
    'drawn-mode': { fill: 'none', stroke: palette.accent, 'stroke-dasharray': DASHES.dash },
    'drawn-guide': { fill: palette.core, stroke: 'none' },
    'drawn-sheet': { fill: palette.air, stroke: palette.rule },
    'drawn-device': { fill: 'none', stroke: palette.ink, 'stroke-dasharray': DASHES.dash },
    'drawn-device-name': halo,
    'drawn-beam': { fill: palette.beam, 'fill-opacity': 0.75, stroke: palette.beamEdge },
    'drawn-ray': {
      fill: 'none',
      stroke: palette.accent,
      'stroke-width': WIDTH_PX.fine,
      'stroke-opacity': 0.6,
    },
    'drawn-receiver': { fill: 'none', stroke: palette.ink, 'stroke-dasharray': DASHES.dash },
    'drawn-axis': { fill: 'none', stroke: palette.quiet, 'stroke-dasharray': AXIS_DASH },
    'drawn-bar': { stroke: palette.ink, 'stroke-width': 2 },
    'drawn-dimension': { fill: 'none', stroke: palette.ink, 'stroke-width': WIDTH_PX.fine },
    'drawn-label': halo,
  }
}

/** The drawing with the look of every class written into its shapes. */
export function withLook(drawing: Markup, palette: Palette): Markup {
  const known = looks(palette)
  const dressed = (node: Markup | string): Markup | string => {
    if (typeof node === 'string') return node
    const names = String(node.attributes.class ?? '').split(' ')
    const own = Object.assign({}, ...names.map((name) => known[name] ?? {})) as Attributes
    return { ...node, attributes: { ...own, ...node.attributes }, children: node.children.map(dressed) }
  }
  return { ...drawing, attributes: drawing.attributes, children: drawing.children.map(dressed) }
}
