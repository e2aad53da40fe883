// Work whose refusal is an answer: what is wrong with a cross-section comes back in words, bugs are thrown on.

import { InputError } from '../../numerics/inputError'
import { NoModeError } from '../../optics/index'

export type Refusable<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string }

export function* refusable<T>(steps: Generator<number, T, void>): Generator<number, Refusable<T>, void> {
  try {
    return { ok: true, value: yield* steps }
  } catch (error) {
    if (error instanceof InputError || error instanceof NoModeError)
      return { ok: false, message: error.message }
    throw error
  }
}
