// The column of a stress test with hours or cycles: by its heading, which often says its unit too.

import type { ExposureUnit } from '../../model/words/lifetime'
import type { Doubt, ScanAnswers } from './scan'

const HEADED =
  /\bcycles?\b(?!\s*time)|\bhours?\b|\bexposure|\bstress\b|\bage?ing\b|\belapsed|\btime\b.*\b(h|hrs?|d|days?|weeks?|min)\b/i

/** One unit of the file in the unit that is stored. */
interface ExposureScale {
  readonly unit: ExposureUnit
  readonly factor: number
}

const SCALES: Readonly<Record<string, ExposureScale>> = {
  hours: { unit: 'h', factor: 1 },
  cycles: { unit: 'cycles', factor: 1 },
  days: { unit: 'h', factor: 24 },
  weeks: { unit: 'h', factor: 168 },
  minutes: { unit: 'h', factor: 1 / 60 },
}
const UNITS: readonly (readonly [name: string, RegExp])[] = [
  ['cycles', /\bcycles?\b/i],
  ['hours', /\b(h|hrs?|hours?)\b/i],
  ['days', /\b(d|days?)\b/i],
  ['weeks', /\b(w|weeks?)\b/i],
  ['minutes', /\b(min|minutes?)\b/i],
]

const worded = (heading: string) => heading.replaceAll('_', ' ')

export const isExposureHeading = (heading: string): boolean => HEADED.test(worded(heading))

/** The scale of the column; the user is asked for it where the heading has no unit. */
export function exposureScale(heading: string, answers: ScanAnswers, doubts: Doubt[]): ExposureScale {
  const said = UNITS.find(([, pattern]) => pattern.test(worded(heading)))?.[0]
  const names = Object.keys(SCALES)
  const assumed = said ?? names.find((name) => name === answers['exposure-unit']) ?? 'hours'
  if (said === undefined) {
    doubts.push({
      id: 'exposure-unit',
      question: `Unit of column "${heading}"?`,
      assumed,
      alternatives: names.filter((name) => name !== assumed),
    })
  }
  return SCALES[assumed] ?? { unit: 'h', factor: 1 }
}
