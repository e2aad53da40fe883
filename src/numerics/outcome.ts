// The outcome of work on the user's data: a value, or the reason in words.

import { RefusalError } from './inputError'
import { refusalText } from './refusalText'
import type { Steps } from './steps'

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string }

function refused(error: unknown): { readonly ok: false; readonly message: string } {
  if (error instanceof RefusalError) return { ok: false, message: refusalText(error) }
  throw error
}

/** What is wrong with the data becomes the outcome's message; a bug stays an error. */
export function attempted<T>(work: () => T): Outcome<T> {
  try {
    return { ok: true, value: work() }
  } catch (error) {
    return refused(error)
  }
}

/** The same for work in steps. */
export function* attemptedSteps<T>(steps: Steps<T>): Steps<Outcome<T>> {
  try {
    return { ok: true, value: yield* steps }
  } catch (error) {
    return refused(error)
  }
}
