// The cross-section to scale: the whole stack, and the cores enlarged. The dashed ellipse is the entered mode.

import { scaleBarUm } from '../../../figures/drawing/scale'
import { coreValue } from '../../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import type { IndexSource } from '../../../model/schema/indexSource'
import { fixedText } from '../../../numerics/numberText'
import { refractiveIndex } from '../../../optics/index'
import type { SectionOwner } from './sectionOwner'
import { boxOf, coreCorners, framed, layerHeights, type OutlineBox, type Point } from './sectionShapes'

const WIDTH_PX = 420
const HEIGHT_PX = 300
const ASPECT = WIDTH_PX / HEIGHT_PX
const LEAST_LABELLED_PX = 18

/** Index where it is known at the wavelength; the drawing does without it otherwise. */
function indexOf(source: IndexSource, wavelengthUm: number): number | null {
  if (source.kind === 'value') return coreValue(source.index, 'index')
  try {
    return refractiveIndex(source.material, wavelengthUm)
  } catch {
    return null
  }
}

/** Denser is darker. */
function shade(index: number | null): string {
  const share = Math.min(1, Math.max(0, ((index ?? 1) - 1) / 2.5))
  return `color-mix(in oklab, var(--ink) ${Math.round(4 + 46 * share)}%, var(--paper))`
}

interface Band {
  readonly name: string
  readonly index: number | null
  readonly fromUm: number
  readonly toUm: number
}

function bandsOf(section: CrossSectionEntry, wavelengthUm: number, frame: OutlineBox): readonly Band[] {
  const heights = layerHeights(section)
  return [
    {
      name: 'Substrate',
      index: indexOf(section.substrate.index, wavelengthUm),
      fromUm: frame.bottomUm,
      toUm: 0,
    },
    ...section.layers.map((layer, at) => ({
      name: layer.name,
      index: indexOf(layer.index, wavelengthUm),
      fromUm: heights[at] ?? 0,
      toUm: heights[at + 1] ?? 0,
    })),
    {
      name: 'Top cladding',
      index: indexOf(section.cover.index, wavelengthUm),
      fromUm: heights.at(-1) ?? 0,
      toUm: frame.topUm,
    },
  ]
}

function View({
  label,
  frame,
  section,
  owner,
  wavelengthUm,
}: {
  readonly label: string
  readonly frame: OutlineBox
  readonly section: CrossSectionEntry
  readonly owner: SectionOwner
  readonly wavelengthUm: number
}) {
  const pxPerUm = HEIGHT_PX / (frame.topUm - frame.bottomUm)
  const x = (um: number) => (um - frame.leftUm) * pxPerUm
  const y = (um: number) => (frame.topUm - um) * pxPerUm
  const clipY = (um: number) => Math.min(HEIGHT_PX, Math.max(0, y(um)))
  const cores = coreCorners(section)
  const middle = boxOf(cores.flat())
  const bar = scaleBarUm(pxPerUm, WIDTH_PX / 4)
  const path = (points: readonly Point[]) =>
    points.map((point) => `${x(point.xUm)},${y(point.yUm)}`).join(' ')
  return (
    <figure>
      <svg viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`} role="img" aria-label={label}>
        <title>{label}</title>
        {bandsOf(section, wavelengthUm, frame).map((band) => {
          const [top, bottom] = [clipY(band.toUm), clipY(band.fromUm)]
          if (bottom <= top) return null
          return (
            <g key={`${band.name}${band.fromUm}`}>
              <rect
                x={0}
                y={top}
                width={WIDTH_PX}
                height={bottom - top}
                fill={shade(band.index)}
                className="section-band"
              />
              {bottom - top > LEAST_LABELLED_PX && (
                <text x={8} y={Math.min(bottom - 6, top + 16)}>
                  {band.name}
                  {band.index === null ? '' : ` ${fixedText(band.index, 3)}`}
                </text>
              )}
            </g>
          )
        })}
        {section.cores.map((core, at) => (
          <polygon
            key={core.id}
            points={path(cores[at] ?? [])}
            fill={shade(indexOf(core.index, wavelengthUm))}
            className="section-core"
          />
        ))}
        <ellipse
          cx={x((middle.leftUm + middle.rightUm) / 2)}
          cy={y((middle.bottomUm + middle.topUm) / 2)}
          rx={(coreValue(owner.mfdX, 'mfd') / 2) * pxPerUm}
          ry={(coreValue(owner.mfdY, 'mfd') / 2) * pxPerUm}
          className="section-mode"
        />
        <line
          x1={WIDTH_PX - 12 - bar * pxPerUm}
          x2={WIDTH_PX - 12}
          y1={HEIGHT_PX - 12}
          y2={HEIGHT_PX - 12}
          className="section-bar"
        />
        <text x={WIDTH_PX - 12} y={HEIGHT_PX - 18} textAnchor="end">
          {bar >= 1 ? `${bar} µm` : `${Math.round(bar * 1000)} nm`}
        </text>
      </svg>
      <figcaption className="quiet">{label}</figcaption>
    </figure>
  )
}

export function SectionDrawing({
  section,
  owner,
  wavelengthUm,
}: {
  readonly section: CrossSectionEntry
  readonly owner: SectionOwner
  readonly wavelengthUm: number
}) {
  const cores = boxOf(coreCorners(section).flat())
  const top = layerHeights(section).at(-1) ?? 0
  const stack: OutlineBox = {
    leftUm: cores.leftUm,
    rightUm: cores.rightUm,
    bottomUm: Math.min(0, cores.bottomUm),
    topUm: Math.max(top, cores.topUm),
  }
  const stackMargin = 0.12 * (stack.topUm - stack.bottomUm)
  const size = Math.max(cores.topUm - cores.bottomUm, (cores.rightUm - cores.leftUm) / ASPECT)
  const shared = { section, owner, wavelengthUm }
  return (
    <div className="section-drawing">
      <View
        label={`Layer stack to scale; dashed: 1/e² contour of the ${owner.kind} mode`}
        frame={framed(stack, stackMargin, ASPECT)}
        {...shared}
      />
      <View label="Cores to scale" frame={framed(cores, 0.5 * size, ASPECT)} {...shared} />
    </div>
  )
}
