// Work in steps, with a pause after each.

import { answeredHere } from '../analysis/field/fit/knownFits'
import type { Tell } from './jobRunner'

const breath = () => new Promise<void>((resolve) => setTimeout(resolve, 0))

/** Takes the steps one by one, and lets the page draw in between where it does the work itself. */
export async function walked<T>(steps: Generator<number, T, void>, tell: Tell): Promise<T> {
  for (;;) {
    const step = answeredHere(() => steps.next())
    if (step.done) return step.value
    tell(step.value)
    await breath()
  }
}
