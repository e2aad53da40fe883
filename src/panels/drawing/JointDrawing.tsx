// The joint to scale in its pane: side and top view of one scale, one above the other or side by side, with zoom.

import { useEffect, useRef, useState } from 'react'
import { type ViewFrame, zoomed, zPx } from '../../figures/drawing/scale'
import { Pane } from '../../ui/controls/Panes'
import { useSize } from '../../ui/figures/useSize'
import { type DrawingProps, DrawingView, ZOOM_STEP } from './DrawingView'
import { arrange, PRESETS, type Preset, presetFrame } from './frames'
import './drawing.css'

const APART_PX = 8
/** A near face this near to the edge leaves no space for the fibre's side. */
const EDGE_SHARE = 0.25
const WHEEL_PX_PER_STEP = 200

export function JointDrawing({ title, ...props }: DrawingProps & { readonly title: string }) {
  const { view, parts } = props
  const { gapUm } = view.joint
  /** What is shown: a preset, which follows the size of the pane, or the zoom of the user. */
  const [shown, setShown] = useState<Preset | ViewFrame>('joint')
  const [holder, paneSize] = useSize()
  const { beside, size } = arrange(paneSize, APART_PX, view, parts)
  // A preset keeps its scale while the fibre is moved: a drawing that follows its own drag cannot be dragged.
  const framed = useRef<{ readonly key: string; readonly frame: ViewFrame } | null>(null)
  const key = `${String(shown)} ${size.widthPx} ${size.heightPx}`
  if (typeof shown === 'string' && framed.current?.key !== key) {
    framed.current = { key, frame: presetFrame(shown, view, parts, size) }
  }
  const frame =
    typeof shown === 'string' && framed.current !== null ? framed.current.frame : (shown as ViewFrame)
  const latest = useRef(frame)
  latest.current = frame
  /** Whether an entered gap has set the frame; until the user zooms, the next one does too. */
  const followed = useRef(false)
  const show = (next: Preset | ViewFrame) => {
    followed.current = false
    setShown(next)
  }

  // React listens to the wheel passively. A plain wheel scrolls until the drawing has the focus.
  useEffect(() => {
    const element = holder.current
    if (element === null) return
    const onWheel = (event: WheelEvent) => {
      const { target } = event
      const drawing = target instanceof Element ? target.closest('svg') : null
      if (drawing === null || !(event.ctrlKey || drawing === document.activeElement)) return
      event.preventDefault()
      const bounds = drawing.getBoundingClientRect()
      const awayPx = event.clientX - bounds.left - bounds.width / 2
      followed.current = false
      setShown(zoomed(latest.current, ZOOM_STEP ** (-event.deltaY / WHEEL_PX_PER_STEP), awayPx))
    }
    element.addEventListener('wheel', onWheel, { passive: false })
    return () => element.removeEventListener('wheel', onWheel)
  }, [holder])

  // With a gap entered so wide that the near face comes to the edge, the drawing follows, and follows it back. A dragged fibre
  // stays in it.
  const shownGapUm = useRef(gapUm)
  useEffect(() => {
    if (shownGapUm.current === gapUm) return
    shownGapUm.current = gapUm
    if (document.activeElement instanceof SVGElement) return
    const nearPx = zPx({ ...latest.current, middleXPx: size.widthPx / 2, middleYPx: 0 }, -gapUm)
    if (nearPx >= EDGE_SHARE * size.widthPx && !followed.current) return
    followed.current = true
    setShown(presetFrame('joint', view, parts, size))
  }, [gapUm, view, parts, size])

  return (
    <Pane
      name="Drawing"
      title={title}
      tools={
        <>
          {PRESETS.map((preset) => (
            <button
              key={preset}
              type="button"
              className="subtle"
              aria-label={`Fit ${preset}`}
              aria-pressed={shown === preset}
              onClick={() => {
                framed.current = null
                show(preset)
              }}
            >
              {preset}
            </button>
          ))}
          <button
            type="button"
            className="subtle"
            aria-label="Zoom in"
            onClick={() => show(zoomed(frame, ZOOM_STEP))}
          >
            +
          </button>
          <button
            type="button"
            className="subtle"
            aria-label="Zoom out"
            onClick={() => show(zoomed(frame, 1 / ZOOM_STEP))}
          >
            −
          </button>
        </>
      }
    >
      <div className="drawing-views" data-beside={beside} ref={holder}>
        {size.widthPx > 0 &&
          size.heightPx > 0 &&
          (['y', 'x'] as const).map((axis) => (
            <DrawingView key={axis} axis={axis} size={size} frame={frame} onFrame={show} {...props} />
          ))}
      </div>
    </Pane>
  )
}
