// The review document of the project as it is now. A large one takes a while: it is made in slices between which the page can be
// typed into, and what was there before is shown meanwhile.

import { startTransition, useCallback, useEffect, useRef, useState } from 'react'
import { flushSync } from 'react-dom'
import { questionsLeftOpen } from '../../analysis/field/fit/knownFits'
import { buildSheet, type Sheet, type SheetRequest, sheetSteps } from '../../report/sheet'

/** Work on the page between two chances to type or paint. */
const SLICE_MS = 30

interface Made {
  readonly request: SheetRequest
  readonly sheet: Sheet
  /** Whether some of its numbers were being computed elsewhere when it was made. */
  readonly provisional: boolean
  /** Whether its designs were waiting for such numbers. */
  readonly moving: boolean
}

/** Sections that say the same as before stay the same objects, so that the page draws only what has changed. */
function sharing(before: Sheet | undefined, sheet: Sheet): Sheet {
  if (before === undefined) return sheet
  const known = new Map(before.sections.map((section) => [section.id, section]))
  const sections = sheet.sections.map((section) => {
    const old = known.get(section.id)
    return old !== undefined && JSON.stringify(old) === JSON.stringify(section) ? old : section
  })
  return { ...sheet, sections }
}

interface SheetInTurn {
  /** The newest that is made; null before the first. */
  readonly sheet: Sheet | null
  /** Whether it is of the project as it is now. */
  readonly current: boolean
  /** Whether some of its numbers are being computed elsewhere and will change. */
  readonly provisional: boolean
  /** The one of the project as it is now, made at once where it must be: for paper and files. */
  readonly now: () => Sheet
}

/**
 * `request` must stay the same object as long as nothing in it has changed; null while it cannot be made yet. `moving` says whether its designs
 * wait for numbers: the sheet is then provisional until the one that has them is made, so that what it allows does not come and go.
 */
export function useSheet(request: SheetRequest | null, moving: boolean): SheetInTurn {
  const [made, setMade] = useState<Made | null>(null)
  const newest = useRef(made)
  const wanted = useRef(request)
  wanted.current = request
  const keep = useCallback(
    (from: SheetRequest, sheet: Sheet, provisional: boolean): Made => {
      const next = { request: from, sheet: sharing(newest.current?.sheet, sheet), provisional, moving }
      newest.current = next
      return next
    },
    [moving],
  )
  useEffect(() => {
    if (request === null || newest.current?.request === request) return
    const steps = sheetSteps(request)
    let timer: ReturnType<typeof setTimeout> | undefined
    let provisional = false
    const turn = () => {
      const end = performance.now() + SLICE_MS
      const open = questionsLeftOpen()
      for (let step = steps.next(); ; step = steps.next()) {
        provisional ||= questionsLeftOpen() > open
        if (step.done) {
          const next = keep(request, step.value, provisional)
          startTransition(() => setMade(next))
          return
        }
        if (performance.now() >= end) break
      }
      timer = setTimeout(turn, 0)
    }
    timer = setTimeout(turn, 0)
    return () => clearTimeout(timer)
  }, [request, keep])
  const now = useCallback((): Sheet => {
    const from = wanted.current
    if (from === null) throw new Error('the sheet was asked for before its designs were evaluated')
    if (newest.current?.request === from) return newest.current.sheet
    const open = questionsLeftOpen()
    const sheet = buildSheet(from)
    const next = keep(from, sheet, questionsLeftOpen() > open)
    setMade(next)
    return next.sheet
  }, [keep])
  // Paper shows what is true when it is printed, however printing was started.
  useEffect(() => {
    const onPrint = () => {
      if (wanted.current !== null) flushSync(() => void now())
    }
    window.addEventListener('beforeprint', onPrint)
    return () => window.removeEventListener('beforeprint', onPrint)
  }, [now])
  const current = made !== null && made.request === request
  return {
    sheet: made?.sheet ?? null,
    current,
    provisional: made !== null && (made.provisional || (made.moving && !current)),
    now,
  }
}
