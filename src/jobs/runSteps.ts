// Work in steps, with a pause after each.

import { answeredHere } from '../analysis/field/fit/knownFits'
import type { ReportProgress } from './jobRunner'

/** Resolves once the page has had time to paint and react. */
export const nextTask = () => new Promise<void>((resolve) => setTimeout(resolve, 0))

/** Takes the steps one by one, and lets the page draw in between where it does the work itself. */
export async function runSteps<T>(steps: Generator<number, T, void>, report: ReportProgress): Promise<T> {
  for (;;) {
    const step = answeredHere(() => steps.next())
    if (step.done) return step.value
    report(step.value)
    await nextTask()
  }
}
