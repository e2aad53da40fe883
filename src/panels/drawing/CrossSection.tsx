// The joint to scale, side view over top view, with zoom. The fibre can be dragged or moved with the arrow keys.

import { type KeyboardEvent, lazy, type ReactNode, Suspense, useEffect, useRef, useState } from 'react'
import type { JointView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import { type Frame, fittedPxPerUm, type Scale, scaleBarUm, zoomed, zPx } from '../../report/figures/scale'
import { sectionShapes } from '../../report/figures/section'
import type { SectionParts } from '../../report/figures/sectionParts'
import { sectionPlane } from '../../report/figures/sectionPlane'
import { MarkupView } from '../../ui/figures/MarkupView'
import { Dimensions, dimensionPlaces, type Place } from './Dimensions'
import './drawing.css'
import { type FibreMove, moved } from './fibreMove'
import { Locator } from './Locator'
import { useFibreDrag } from './useFibreDrag'

// Rays and pointing come a moment after the drawing.
const SectionLight = lazy(async () => ({ default: (await import('./SectionLight')).SectionLight }))

export interface CrossSectionProps {
  readonly view: JointView
  readonly title: string
  /** What the joint joins, in words. */
  readonly near: string
  readonly far: string
  readonly reflections: readonly FaceReflection[]
  readonly parts: SectionParts
  readonly onMove: (to: FibreMove) => void
  readonly onMoveStart: () => void
  readonly onMoveEnd: () => void
  /** The editable number of a dimension, for the view of `axis`. */
  readonly renderDimension: (field: keyof FibreMove, axis: 'x' | 'y') => ReactNode
}

const WIDTH_PX = 960
const HEIGHT_PX = 230
const ZOOM_STEP = 1.5
/** A near face this near to the edge leaves no room for the fibre's side. */
const EDGE_SHARE = 0.25
const WHEEL_PX_PER_STEP = 200
const KEY_MOVES: Readonly<Record<string, readonly [z: number, v: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
const KEY_STEP_UM = 0.1
const KEY_COARSE_UM = 1

const PRESETS = ['Whole fibre', 'Joint', 'Waveguide'] as const
type Preset = (typeof PRESETS)[number]

function presetFrame(preset: Preset, { joint, near, far }: JointView, parts: SectionParts): Frame {
  const { gapUm, offsetXUm, offsetYUm } = joint
  const fitting = (lengthUm: number, heightUm: number) =>
    fittedPxPerUm(lengthUm, heightUm, WIDTH_PX, HEIGHT_PX)
  if (preset === 'Waveguide') {
    const guideUm = Math.max(parts.guideWidthUm, parts.guideHeightUm)
    return { pxPerUm: fitting(0, 12 * guideUm), centreZUm: 0 }
  }
  const offsetUm = 2 * Math.max(Math.abs(offsetXUm), Math.abs(offsetYUm))
  const acrossUm =
    preset === 'Whole fibre'
      ? 1.15 * parts.claddingDiameterUm
      : 2 * Math.max(near.mfdXUm, near.mfdYUm, far.mfdXUm, far.mfdYUm)
  return { pxPerUm: fitting(gapUm + 2 * acrossUm, acrossUm + offsetUm), centreZUm: -gapUm / 2 }
}

const placed = ({ xPx, yPx }: Place) => ({
  insetInlineStart: `${(100 * xPx) / WIDTH_PX}%`,
  insetBlockStart: `${(100 * yPx) / HEIGHT_PX}%`,
})

export function CrossSection(props: CrossSectionProps) {
  const { view, title, near, far, parts, onMove, onMoveStart, onMoveEnd, renderDimension } = props
  const [frame, setFrame] = useState(() => presetFrame('Joint', view, parts))
  const shownGapUm = useRef(view.joint.gapUm)
  const holder = useRef<HTMLElement>(null)
  const { gapUm, offsetXUm, offsetYUm } = view.joint
  const here: FibreMove = { gapUm, offsetXUm, offsetYUm }
  const scale: Scale = { ...frame, middleXPx: WIDTH_PX / 2, middleYPx: HEIGHT_PX / 2 }
  const barUm = scaleBarUm(frame.pxPerUm, 160)
  const drag = useFibreDrag(here, frame, WIDTH_PX, { onMove, onMoveStart, onMoveEnd, onFrame: setFrame })

  // React listens to the wheel passively. A plain wheel scrolls the page until the drawing has the focus.
  useEffect(() => {
    const element = holder.current
    if (element === null) return
    const onWheel = (event: WheelEvent) => {
      const { target } = event
      const drawing = target instanceof Element ? target.closest('svg') : null
      if (drawing === null || !(event.ctrlKey || drawing === document.activeElement)) return
      event.preventDefault()
      const bounds = drawing.getBoundingClientRect()
      const awayPx = ((event.clientX - bounds.left) / bounds.width - 0.5) * WIDTH_PX
      setFrame((from) => zoomed(from, ZOOM_STEP ** (-event.deltaY / WHEEL_PX_PER_STEP), awayPx))
    }
    element.addEventListener('wheel', onWheel, { passive: false })
    return () => element.removeEventListener('wheel', onWheel)
  }, [])

  // A gap typed so wide that the near face comes to the edge: the drawing follows. A fibre that is moved by hand stays in it.
  useEffect(() => {
    if (shownGapUm.current === gapUm) return
    shownGapUm.current = gapUm
    if (document.activeElement instanceof SVGElement) return
    setFrame((from) => {
      const nearPx = zPx({ ...from, middleXPx: WIDTH_PX / 2, middleYPx: 0 }, -gapUm)
      return nearPx < EDGE_SHARE * WIDTH_PX ? presetFrame('Joint', view, parts) : from
    })
  }, [gapUm, view, parts])

  const onKeyDown = (axis: 'x' | 'y') => (event: KeyboardEvent<SVGSVGElement>) => {
    if (event.key === '+' || event.key === '-') {
      setFrame(zoomed(frame, event.key === '+' ? ZOOM_STEP : 1 / ZOOM_STEP))
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
    <figure className="cross-section" ref={holder}>
      <figcaption>
        <span>
          {title} <span className="quiet drawing-between">{`${near} to ${far}`}</span>
        </span>
        <span className="zoom">
          <button type="button" onClick={() => setFrame(zoomed(frame, 1 / ZOOM_STEP))} aria-label="Zoom out">
            −
          </button>
          <button type="button" onClick={() => setFrame(zoomed(frame, ZOOM_STEP))} aria-label="Zoom in">
            +
          </button>
          {PRESETS.map((preset) => (
            <button key={preset} type="button" onClick={() => setFrame(presetFrame(preset, view, parts))}>
              {preset}
            </button>
          ))}
        </span>
      </figcaption>
      {(['y', 'x'] as const).map((axis) => {
        const offsetUm = axis === 'x' ? offsetXUm : offsetYUm
        const plane = sectionPlane(view, parts, axis)
        const dimensions = { gapUm, plane, scale }
        const places = dimensionPlaces(dimensions, WIDTH_PX, HEIGHT_PX)
        return (
          <div key={axis} className="section-sheet">
            <svg
              viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`}
              // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys move the fibre, as dragging does
              tabIndex={0}
              role="application"
              aria-label={`${axis === 'y' ? 'Side' : 'Top'} view: gap ${gapUm.toFixed(2)} µm, offset ${axis} ${offsetUm.toFixed(2)} µm, ${near} to ${far}. Arrow keys move the fibre by 0.1 µm, with Shift by 1 µm; plus and minus zoom.`}
              {...drag(axis)}
              onKeyDown={onKeyDown(axis)}
              onFocus={onMoveStart}
              onBlur={onMoveEnd}
            >
              <MarkupView nodes={sectionShapes({ axis, view, plane, parts, scale, widthPx: WIDTH_PX })} />
              <text className="drawn-label drawn-side" x={10} y={5} dy="1.3em">
                {near}
              </text>
              <text className="drawn-label drawn-side" x={WIDTH_PX - 10} y={5} textAnchor="end">
                {far}
              </text>
              <Suspense fallback={null}>
                <SectionLight
                  axis={axis}
                  view={view}
                  plane={plane}
                  scale={scale}
                  leans={parts.facePlane === axis}
                  reflections={props.reflections}
                />
              </Suspense>
              <Dimensions {...dimensions} />
              <Locator
                gapUm={gapUm}
                centreVUm={plane.centreVUm}
                claddingDiameterUm={parts.claddingDiameterUm}
                chipTopUm={axis === 'x' ? parts.claddingDiameterUm : parts.depthUm}
                shown={scale}
                viewWidthPx={WIDTH_PX}
                viewHeightPx={HEIGHT_PX}
                leftPx={8}
                topPx={HEIGHT_PX - 70}
              />
              <g className="drawn-bar">
                <line
                  x1={WIDTH_PX - 20 - barUm * frame.pxPerUm}
                  x2={WIDTH_PX - 20}
                  y1={HEIGHT_PX - 16}
                  y2={HEIGHT_PX - 16}
                />
                <text x={WIDTH_PX - 20} y={HEIGHT_PX - 22} textAnchor="end">
                  {`${barUm} µm`}
                </text>
              </g>
            </svg>
            <span className="dimension-place" style={placed(places.gap)}>
              {renderDimension('gapUm', axis)}
            </span>
            <span className="dimension-place" style={placed(places.offset)}>
              {renderDimension(axis === 'x' ? 'offsetXUm' : 'offsetYUm', axis)}
            </span>
          </div>
        )
      })}
    </figure>
  )
}
