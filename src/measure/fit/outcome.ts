// What came of work on a person's data: a value, or the reason in words.

import { InputError } from '../../numerics/inputError'

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string }

/** What is wrong with the data becomes the outcome's message; a bug stays an error. */
export function attempted<T>(work: () => T): Outcome<T> {
  try {
    return { ok: true, value: work() }
  } catch (error) {
    if (error instanceof InputError) return { ok: false, message: error.message }
    throw error
  }
}
