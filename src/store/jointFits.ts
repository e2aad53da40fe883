// Fits of real joints and exact sums at worst cases, made off the page: whatever a budget on the page wants is requested here, the last first, and every number
// is drawn again once it is known.

import { type FieldRequest, fitElsewhere, learnAnswer } from '../analysis/field/fit/knownFits'
import { fitsLearned } from './solvedFields'

/** A fit begins once nothing new has been wanted for so long: a drag wants another one in every frame. */
const STILL_MS = 300
/** A fit that was begun is worth ending. */
const NEVER = new AbortController().signal

/** Starts answering requests, for as long as the page is open; called before anything is evaluated. */
export function startFitting(): void {
  const wanted = new Map<string, FieldRequest>()
  let timer: ReturnType<typeof setTimeout> | undefined
  let running = false
  const later = () => {
    clearTimeout(timer)
    timer = setTimeout(() => void next(), STILL_MS)
  }
  const next = async (): Promise<void> => {
    const request = [...wanted.values()].at(-1)
    if (running || request === undefined) return
    running = true
    wanted.clear() // what is still wanted is requested again when the numbers are drawn with this fit
    const { runFieldJob } = await import('../jobs/fieldClient')
    try {
      learnAnswer(request.key, await runFieldJob('fit', request, { signal: NEVER }))
      fitsLearned()
    } catch {
      // What was known stays, and nothing waits for it any longer.
      learnAnswer(request.key, request.kind === 'points' ? [] : null)
      fitsLearned()
    }
    running = false
    if (wanted.size > 0) later()
  }
  fitElsewhere((request) => {
    wanted.delete(request.key)
    wanted.set(request.key, request)
    later()
  })
}
