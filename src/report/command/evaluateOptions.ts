// Arguments of the evaluate command: `project.json [--set path=value] [--sweep path=from:to:count] [--json] ...`.

import { MOST_SAMPLES } from '../../analysis/yield/runYield'
import { rounded } from '../../numerics/numberText'
import { type ProjectChange, readChange } from './projectChange'

/** One value of the project that takes several values in turn. */
export interface Sweep {
  readonly fieldPath: string
  readonly texts: readonly string[]
}

export interface EvaluateOptions {
  readonly projectPath: string
  readonly changes: readonly ProjectChange[]
  readonly sweeps: readonly Sweep[]
  /** Ids of the designs that are evaluated; all where none is named. */
  readonly designIds: readonly string[]
  /** Assemblies of each yield run; 0 runs none. */
  readonly samples: number
  readonly json: boolean
}

/** Points of all sweeps together. */
const MOST_POINTS = 10_000

export const EVALUATE_USAGE = `npm run evaluate -- project.json [options]
  --set path=value     overrides a value of the file: candidates[dry].chain[1].gap="3.4 um"; repeatable
  --sweep path=from:to:count    a value in equal steps: gap=0:20:5 or gap="0 um:20 um:5"; a second one makes a grid
  --design id          a design to evaluate; repeatable; default: all
  --samples 0          assemblies of the yield run of each point, 0 for none
  --json               the results as JSON, for scripts
  --help               this text
Entries of a list are named by index, counted from 0, or by id. A value without a unit is in the unit of the file.
Exit code: 0 all designs are evaluated; 2 at least one is not; 3 the command line is invalid; 4 the file cannot be read.`

/** A number and the unit behind it; NaN for text that is not a number. */
function numberAndUnit(word = ''): readonly [value: number, unit: string] {
  const [, digits = 'none'] = /^([-+.\de]+)/.exec(word) ?? []
  return [Number(digits), word.slice(digits.length).trim()]
}

/** The values of a sweep, or null where the words are none. */
export function readSweep(word: string): Sweep | null {
  const change = readChange(word)
  const parts = (change?.text ?? '').split(':').map((part) => part.trim())
  const [low, fromUnit] = numberAndUnit(parts[0])
  const [high, toUnit] = numberAndUnit(parts[1])
  const points = parts.length === 3 && /^\d+$/.test(parts[2] ?? '') ? Number(parts[2]) : Number.NaN
  if (change === null || !Number.isFinite(low) || !Number.isFinite(high)) return null
  if (!(points >= 2 && points <= MOST_POINTS) || (fromUnit !== toUnit && fromUnit !== '' && toUnit !== ''))
    return null
  const unit = toUnit || fromUnit
  const texts = Array.from({ length: points }, (_, i) =>
    `${rounded(low + ((high - low) * i) / (points - 1), 12)} ${unit}`.trim(),
  )
  return { fieldPath: change.fieldPath, texts }
}

/** The options, or what is wrong with them. */
export function readEvaluateOptions(args: readonly string[]): EvaluateOptions | readonly string[] {
  const wrong: string[] = []
  const paths: string[] = []
  const changes: ProjectChange[] = []
  const sweeps: Sweep[] = []
  const designIds: string[] = []
  let samples = 0
  let json = false
  const takers: Readonly<Record<string, (value: string) => void>> = {
    '--set': (value) => {
      const change = readChange(value)
      if (change === null) wrong.push(`--set is "${value}"; must be path=value`)
      else changes.push(change)
    },
    '--sweep': (value) => {
      const sweep = readSweep(value)
      if (sweep === null) {
        wrong.push(`--sweep is "${value}"; must be path=from:to:count, with a count of 2 to ${MOST_POINTS}`)
      } else sweeps.push(sweep)
    },
    '--design': (value) => designIds.push(value),
    '--samples': (value) => {
      samples = Number(value)
      if (!/^\d+$/.test(value) || samples > MOST_SAMPLES) {
        wrong.push(`--samples is "${value}"; must be a whole number, 0 to ${MOST_SAMPLES}`)
      }
    },
  }
  for (let at = 0; at < args.length; at++) {
    const word = args[at] ?? ''
    const taker = takers[word]
    const value = args[at + 1]
    if (word === '--json') json = true
    else if (!word.startsWith('--')) paths.push(word)
    else if (taker === undefined) wrong.push(`${word} is not an option`)
    else if (value === undefined || value.startsWith('--')) wrong.push(`${word} needs a value`)
    else {
      taker(value)
      at += 1
    }
  }
  const points = sweeps.reduce((product, { texts }) => product * texts.length, 1)
  if (points > MOST_POINTS)
    wrong.push(`the sweeps have ${points} points together; at most ${MOST_POINTS} are evaluated`)
  const [projectPath] = paths
  if (projectPath === undefined || paths.length > 1)
    wrong.push(`expected one project file, got ${paths.length}`)
  if (wrong.length > 0 || projectPath === undefined) return wrong
  return { projectPath, changes, sweeps, designIds, samples, json }
}
