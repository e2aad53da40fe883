// One view of a joint to scale, pixel for pixel, with its dimensions as editable numbers. The fibre can be
// dragged or moved by arrow keys.

import { type KeyboardEvent, lazy, type ReactNode, Suspense } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import type { JointBodies } from '../../figures/drawing/jointBodies'
import { jointPlane } from '../../figures/drawing/jointPlane'
import { jointShapes } from '../../figures/drawing/jointShapes'
import { type Scale, scaleBarUm, transversePx, type ViewFrame, zoomed } from '../../figures/drawing/scale'
import { fixedText } from '../../numerics/numberText'
import { MarkupView } from '../../ui/figures/MarkupView'
import type { ElementSize } from '../../ui/figures/useSize'
import { AxisTriad } from './AxisTriad'
import { DimensionFields, dimensionPositions, type PicturePoint } from './DimensionFields'
import { type FibreMove, moved } from './fibreMove'
import { Locator } from './Locator'
import { useFibreDrag } from './useFibreDrag'

// Rays and pointing come a moment after the drawing.
const DrawingLight = lazy(async () => ({ default: (await import('./DrawingLight')).DrawingLight }))

export const ZOOM_STEP = 1.5
const KEY_MOVES: Readonly<Record<string, readonly [z: number, v: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
/** The name of what is on the right: its distance from the edge, and where it ends there. */
const NAME_INSET_PX = 5
const NAME_PX = 26
const KEY_STEP_UM = 0.1
const KEY_COARSE_UM = 1
/** Smaller views have no space for the overview of the joint. */
const LOCATOR_FROM: ElementSize = { widthPx: 560, heightPx: 170 }

export interface DrawingProps {
  readonly view: JointView
  /** What the joint joins, in words. */
  readonly near: string
  readonly far: string
  readonly reflections: readonly FaceReflection[]
  readonly parts: JointBodies
  readonly onMove: (to: FibreMove) => void
  readonly onMoveStart: () => void
  readonly onMoveEnd: () => void
  /** The editable number of a dimension, for the view of `axis`. */
  readonly renderDimension: (field: keyof FibreMove, axis: 'x' | 'y') => ReactNode
}

const placed = ({ xPx, yPx }: PicturePoint) => ({ insetInlineStart: xPx, insetBlockStart: yPx })

export function DrawingView({
  axis,
  size: { widthPx, heightPx },
  frame,
  onFrame,
  ...props
}: DrawingProps & {
  readonly axis: 'x' | 'y'
  readonly size: ElementSize
  readonly frame: ViewFrame
  readonly onFrame: (frame: ViewFrame) => void
}) {
  const { view, near, far, parts, onMove, onMoveStart, onMoveEnd, renderDimension } = props
  const { gapUm, offsetXUm, offsetYUm } = view.joint
  const here: FibreMove = { gapUm, offsetXUm, offsetYUm }
  const offsetUm = axis === 'x' ? offsetXUm : offsetYUm
  const scale: Scale = { ...frame, middleXPx: widthPx / 2, middleYPx: heightPx / 2 }
  const plane = jointPlane(view, parts, axis)
  const dimensions = { gapUm, plane, scale }
  const positions = dimensionPositions(dimensions, widthPx, heightPx)
  const barUm = scaleBarUm(frame.pxPerUm, Math.min(120, widthPx / 4))
  const drag = useFibreDrag(here, frame, widthPx, {
    onMove,
    onMoveStart,
    onMoveEnd,
    onFrame,
  })
  // Where the surface of the chip runs through its name, the name goes below it.
  const surfacePx = axis === 'y' ? transversePx(scale, parts.depthUm) : 0
  const farNamePx = surfacePx > 0 && surfacePx < NAME_PX ? surfacePx + NAME_INSET_PX : NAME_INSET_PX
  const located = widthPx >= LOCATOR_FROM.widthPx && heightPx >= LOCATOR_FROM.heightPx

  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    if (event.key === '+' || event.key === '-') {
      onFrame(zoomed(frame, event.key === '+' ? ZOOM_STEP : 1 / ZOOM_STEP))
      return
    }
    const direction = KEY_MOVES[event.key]
    if (direction === undefined) return
    event.preventDefault()
    const step = event.shiftKey ? KEY_COARSE_UM : KEY_STEP_UM
    // A drag may have ended the gesture that the focus began; a run of arrow keys is one step all the same.
    onMoveStart()
    onMove(moved(here, axis, direction[0] * step, direction[1] * step))
  }

  return (
    <div className="drawing-sheet" style={{ inlineSize: widthPx, blockSize: heightPx }}>
      <svg
        viewBox={`0 0 ${widthPx} ${heightPx}`}
        width={widthPx}
        height={heightPx}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys move the fibre, as dragging does
        tabIndex={0}
        role="application"
        aria-label={`${axis === 'y' ? 'Side' : 'Top'} view: gap ${fixedText(gapUm, 2)} µm, offset ${axis} ${fixedText(offsetUm, 2)} µm, ${near} to ${far}. Arrow keys move the fibre side by 0.1 µm, with Shift by 1 µm; plus and minus zoom.`}
        {...drag(axis)}
        onKeyDown={onKeyDown}
        onFocus={onMoveStart}
        onBlur={onMoveEnd}
      >
        <MarkupView nodes={jointShapes({ axis, view, plane, parts, scale, widthPx })} />
        <text className="drawn-label drawn-side" x={widthPx - 8} y={farNamePx} textAnchor="end">
          {far}
        </text>
        <Suspense fallback={null}>
          <DrawingLight
            axis={axis}
            view={view}
            plane={plane}
            parts={parts}
            scale={scale}
            widthPx={widthPx}
            reflections={props.reflections}
          />
        </Suspense>
        <DimensionFields {...dimensions} />
        {located && (
          <Locator
            gapUm={gapUm}
            centreVUm={plane.centreVUm}
            claddingDiameterUm={parts.claddingDiameterUm}
            chipTopUm={axis === 'x' ? parts.claddingDiameterUm : parts.depthUm}
            shown={scale}
            viewWidthPx={widthPx}
            viewHeightPx={heightPx}
            leftPx={70}
            topPx={heightPx - 70}
          />
        )}
        <AxisTriad axis={axis} leftPx={20} bottomPx={heightPx - 12} />
        <g className="drawn-bar">
          <path d={`M${widthPx - 12} ${heightPx - 14}v6h${-barUm * frame.pxPerUm}v-6`} />
          <text x={widthPx - 12} y={heightPx - 18} textAnchor="end">
            {`${barUm} µm`}
          </text>
        </g>
      </svg>
      <span className="dimension-position" style={placed(positions.gap)}>
        {renderDimension('gapUm', axis)}
      </span>
      <span className="dimension-position" style={placed(positions.offset)}>
        {renderDimension(axis === 'x' ? 'offsetXUm' : 'offsetYUm', axis)}
      </span>
    </div>
  )
}
