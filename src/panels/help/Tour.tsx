// The guided tour: a frame around the item and a card next to it. It can be left at any step, by button or Escape.

import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import { endTour, moveTour, useHelp } from '../../store/help'
import { showPage } from '../../store/view'
import { TOUR_STEPS } from './tourSteps'
import './help.css'

interface Box {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

const GAP_PX = 10
const CARD_PX = { width: 320, height: 190 }

/** Next to the box where there is space: right, left, below, above; else inside it. */
function cardPosition(box: Box | null): { readonly left: number; readonly top: number } {
  const { innerWidth, innerHeight } = window
  const fitX = (x: number) => Math.max(GAP_PX, Math.min(x, innerWidth - CARD_PX.width - GAP_PX))
  const fitY = (y: number) => Math.max(GAP_PX, Math.min(y, innerHeight - CARD_PX.height - GAP_PX))
  if (box === null) return { left: fitX(innerWidth / 2 - CARD_PX.width / 2), top: fitY(innerHeight / 3) }
  const right = box.left + box.width + GAP_PX
  if (right + CARD_PX.width < innerWidth) return { left: right, top: fitY(box.top) }
  if (box.left - CARD_PX.width - GAP_PX > 0)
    return { left: box.left - CARD_PX.width - GAP_PX, top: fitY(box.top) }
  const below = box.top + box.height + GAP_PX
  if (below + CARD_PX.height < innerHeight) return { left: fitX(box.left), top: below }
  return { left: fitX(box.left), top: fitY(box.top - CARD_PX.height - GAP_PX) }
}

/** Where the target is, followed while it comes, moves or goes. */
function useBox(target: string): Box | null {
  const [box, setBox] = useState<Box | null>(null)
  useEffect(() => {
    const look = () => {
      const found = document.querySelector(target)?.getBoundingClientRect()
      const next =
        found === undefined || found.width === 0
          ? null
          : { left: found.left, top: found.top, width: found.width, height: found.height }
      setBox((before) => (JSON.stringify(before) === JSON.stringify(next) ? before : next))
    }
    look()
    const timer = setInterval(look, 200)
    return () => clearInterval(timer)
  }, [target])
  return box
}

export function Tour() {
  const step = useHelp((state) => state.tourStep)
  const shown = step === null ? undefined : TOUR_STEPS[step]
  // The button that began it may be gone: the keyboard focus then starts from the page.
  useEffect(() => () => document.querySelector<HTMLElement>('.app-main')?.focus(), [])
  return step === null || shown === undefined ? null : <TourCard key={step} step={step} />
}

function TourCard({ step }: { readonly step: number }) {
  const { page, target, title, text } = TOUR_STEPS[step] ??
    TOUR_STEPS[0] ?? { page: 'design', target: '', title: '', text: '' }
  const next = useRef<HTMLButtonElement>(null)
  const box = useBox(target)
  const last = step === TOUR_STEPS.length - 1
  useLayoutEffect(() => {
    showPage(page)
    next.current?.focus()
  }, [page])
  return (
    <>
      {box !== null && (
        <div
          className="tour-frame"
          style={{ left: box.left, top: box.top, width: box.width, height: box.height }}
        />
      )}
      <div
        role="dialog"
        aria-label="Guided tour"
        aria-describedby="tour-text"
        className="tour-card"
        style={{ ...cardPosition(box), width: CARD_PX.width }}
        onKeyDown={(event) => {
          if (event.key === 'Escape') endTour()
        }}
      >
        <h2>{title}</h2>
        <p id="tour-text">{text}</p>
        <div className="tour-actions">
          <button type="button" className="subtle" onClick={endTour}>
            {last ? 'Close' : 'Skip tour'}
          </button>
          <span className="quiet">
            {step + 1} of {TOUR_STEPS.length}
          </span>
          <button type="button" disabled={step === 0} onClick={() => moveTour(step - 1)}>
            Back
          </button>
          <button
            ref={next}
            type="button"
            className="primary"
            onClick={() => (last ? endTour() : moveTour(step + 1))}
          >
            {last ? 'Finish' : 'Next'}
          </button>
        </div>
      </div>
    </>
  )
}
