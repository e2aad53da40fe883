// The joint to scale, side view over top view, with zoom. The fibre can be dragged or moved with the arrow keys.

import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import type { JointView } from '../../analysis/evaluation'
import { type SectionParts, SectionView } from './SectionView'
import { clampZoom, type Scale, scaleBarUm } from './scale'

export interface FibreMove {
  readonly gapUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
}

export interface CrossSectionProps {
  readonly view: JointView
  readonly parts: SectionParts
  readonly onMove: (to: FibreMove) => void
  readonly onMoveStart: () => void
  readonly onMoveEnd: () => void
}

const WIDTH_PX = 960
const HEIGHT_PX = 230
const ZOOM_STEP = 1.5
const PRESETS: readonly { readonly label: string; readonly pxPerUm: number }[] = [
  { label: 'Whole fibre', pxPerUm: 1.6 },
  { label: 'Joint', pxPerUm: 14 },
  { label: 'Waveguide', pxPerUm: 60 },
]
const KEY_MOVES: Readonly<Record<string, readonly [z: number, v: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
const KEY_STEP_UM = 0.1
const KEY_COARSE_UM = 1

/** Drags snap to this, so that the numbers they leave are ones a person would type. */
const DRAG_SNAP_UM = 0.01
const snapped = (um: number) => Number((Math.round(um / DRAG_SNAP_UM) * DRAG_SNAP_UM).toFixed(4))

interface Drag {
  readonly axis: 'x' | 'y'
  readonly startXPx: number
  readonly startYPx: number
  readonly from: FibreMove
  readonly pxPerUm: number
}

function moved(from: FibreMove, axis: 'x' | 'y', zUm: number, vUm: number): FibreMove {
  return {
    gapUm: Math.max(0, snapped(from.gapUm - zUm)),
    offsetXUm: axis === 'x' ? snapped(from.offsetXUm + vUm) : from.offsetXUm,
    offsetYUm: axis === 'y' ? snapped(from.offsetYUm + vUm) : from.offsetYUm,
  }
}

export function CrossSection({ view, parts, onMove, onMoveStart, onMoveEnd }: CrossSectionProps) {
  const [pxPerUm, setPxPerUm] = useState(14)
  const drag = useRef<Drag | null>(null)
  const { gapUm, offsetXUm, offsetYUm } = view.joint
  const here: FibreMove = { gapUm, offsetXUm, offsetYUm }
  const scale: Scale = {
    pxPerUm,
    middleXPx: WIDTH_PX / 2,
    middleYPx: HEIGHT_PX / 2,
    centreZUm: -gapUm / 2,
  }
  const barUm = scaleBarUm(pxPerUm, 160)

  const onPointerDown = (axis: 'x' | 'y') => (event: PointerEvent<SVGSVGElement>) => {
    const target = event.target
    if (!(target instanceof Element) || target.closest('[data-drag]') === null) return
    const bounds = event.currentTarget.getBoundingClientRect()
    drag.current = {
      axis,
      startXPx: event.clientX,
      startYPx: event.clientY,
      from: here,
      pxPerUm: (pxPerUm * bounds.width) / WIDTH_PX,
    }
    event.currentTarget.setPointerCapture(event.pointerId)
    onMoveStart()
  }
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const { current } = drag
    if (current === null) return
    const zUm = (event.clientX - current.startXPx) / current.pxPerUm
    const vUm = (current.startYPx - event.clientY) / current.pxPerUm
    onMove(moved(current.from, current.axis, zUm, vUm))
  }
  const onPointerUp = () => {
    if (drag.current === null) return
    drag.current = null
    onMoveEnd()
  }
  const onKeyDown = (axis: 'x' | 'y') => (event: KeyboardEvent<SVGSVGElement>) => {
    if (event.key === '+' || event.key === '-') {
      setPxPerUm(clampZoom(event.key === '+' ? pxPerUm * ZOOM_STEP : pxPerUm / ZOOM_STEP))
      return
    }
    const direction = KEY_MOVES[event.key]
    if (direction === undefined) return
    event.preventDefault()
    const step = event.shiftKey ? KEY_COARSE_UM : KEY_STEP_UM
    onMove(moved(here, axis, direction[0] * step, direction[1] * step))
  }

  return (
    <figure className="cross-section">
      <figcaption>
        <span>Cross-section, to scale</span>
        <span className="zoom">
          <button
            type="button"
            onClick={() => setPxPerUm(clampZoom(pxPerUm / ZOOM_STEP))}
            aria-label="Zoom out"
          >
            −
          </button>
          <button
            type="button"
            onClick={() => setPxPerUm(clampZoom(pxPerUm * ZOOM_STEP))}
            aria-label="Zoom in"
          >
            +
          </button>
          {PRESETS.map((preset) => (
            <button key={preset.label} type="button" onClick={() => setPxPerUm(preset.pxPerUm)}>
              {preset.label}
            </button>
          ))}
        </span>
      </figcaption>
      {(['y', 'x'] as const).map((axis) => (
        <svg
          key={axis}
          viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys move the fibre, as dragging does
          tabIndex={0}
          role="application"
          aria-label={`${axis === 'y' ? 'Side' : 'Top'} view: gap ${gapUm.toFixed(2)} µm, offset ${axis} ${(axis === 'x' ? offsetXUm : offsetYUm).toFixed(2)} µm. Arrow keys move the fibre by 0.1 µm, with Shift by 1 µm; plus and minus zoom.`}
          onPointerDown={onPointerDown(axis)}
          onPointerMove={onPointerMove}
          onPointerUp={onPointerUp}
          onPointerCancel={onPointerUp}
          onKeyDown={onKeyDown(axis)}
          onFocus={onMoveStart}
          onBlur={onMoveEnd}
        >
          <SectionView
            axis={axis}
            view={view}
            parts={parts}
            scale={scale}
            widthPx={WIDTH_PX}
            heightPx={HEIGHT_PX}
          />
          <g className="drawn-bar">
            <line
              x1={WIDTH_PX - 20 - barUm * pxPerUm}
              x2={WIDTH_PX - 20}
              y1={HEIGHT_PX - 16}
              y2={HEIGHT_PX - 16}
            />
            <text x={WIDTH_PX - 20} y={HEIGHT_PX - 22} textAnchor="end">
              {`${barUm} µm`}
            </text>
          </g>
        </svg>
      ))}
    </figure>
  )
}
