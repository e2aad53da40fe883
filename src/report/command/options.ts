// Arguments of the sheet command: `project.json --out folder [--format html,csv] [--date 2026-11-25] ...`.

import { MOST_SAMPLES } from '../../analysis/yield/runYield'
import { PAPERS, type Paper } from '../../model/words/review'
import { FORMATS } from '../formats'
import { DOCUMENT_RUNS } from '../summary/missingRuns'

export interface SheetOptions {
  readonly projectPath: string
  readonly outFolder: string
  readonly formatIds: readonly string[]
  readonly date: string
  readonly beforePath: string | null
  readonly revision: string | null
  readonly designId: string | null
  readonly paper: Paper | null
  /** Assemblies of each yield run; 0 runs none. */
  readonly samples: number
  /** Arrays of the array run; 0 runs none. */
  readonly arrays: number
  readonly figures: boolean
  /** The documents of the order too. */
  readonly order: boolean
}

/** As the Review screen runs what is missing. */
const COMMAND_DEFAULTS = { samples: DOCUMENT_RUNS.samples, arrays: DOCUMENT_RUNS.arrays } as const

export const USAGE = `npm run sheet -- project.json --out folder [options]
  --format ${FORMATS.map(({ id }) => id).join(',')}   one or several; default: all
  --figures            every figure as SVG, and its numbers as CSV
  --order              the order documents too: purchase specification, process sheet, inspection plan
  --date 2026-11-25    the date on the sheet; default: today
  --revision name      a saved revision of the project, instead of its current state
  --before other.json  compare with another project file, or with a saved revision by its name
  --design id          the design to review, instead of the one selected in the project
  --paper ${PAPERS.join(' | ')}
  --samples ${COMMAND_DEFAULTS.samples}      assemblies of the yield runs, 0 for none
  --arrays ${COMMAND_DEFAULTS.arrays}        arrays of the array run, 0 for none
  --help               this text
Exit code: 0 the selected design meets every requirement; 1 a requirement is not met; 2 one is not evaluated, or nothing can be evaluated;
3 the command line is invalid; 4 a file cannot be read or written.`

const VALUED = [
  'out',
  'format',
  'date',
  'revision',
  'before',
  'design',
  'paper',
  'samples',
  'arrays',
] as const
type Valued = (typeof VALUED)[number]
/** Names of earlier versions, which scripts may still use. */
const EARLIER_NAMES: ReadonlyMap<string, Valued> = new Map([
  ['--candidate', 'design'],
  ['--blocks', 'arrays'],
])

interface Words {
  readonly paths: readonly string[]
  readonly values: ReadonlyMap<Valued, string>
  readonly figures: boolean
  readonly order: boolean
  readonly faults: readonly string[]
}

function wordsOf(args: readonly string[]): Words {
  const paths: string[] = []
  const values = new Map<Valued, string>()
  const faults: string[] = []
  let figures = false
  let order = false
  for (let i = 0; i < args.length; i++) {
    const word = args[i] ?? ''
    if (!word.startsWith('--')) {
      paths.push(word)
      continue
    }
    const name = EARLIER_NAMES.get(word) ?? VALUED.find((each) => word === `--${each}`)
    if (word === '--figures') figures = true
    else if (word === '--order') order = true
    else if (name === undefined) faults.push(`${word} is not an option`)
    else {
      const value = args[i + 1]
      if (value === undefined || value.startsWith('--')) faults.push(`${word} needs a value`)
      else {
        values.set(name, value)
        i += 1
      }
    }
  }
  return { paths, values, figures, order, faults }
}

/** Whether the text is an ISO day that the calendar has. */
function isDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number)
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || month < 1 || month > 12 || day < 1) return false
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
  return day <= (days[month - 1] ?? 0)
}

/** The options, or what is wrong with them. `today` is the day where none is given. */
export function readOptions(args: readonly string[], today: string): SheetOptions | readonly string[] {
  const { paths, values, figures, order, faults } = wordsOf(args)
  const wrong = [...faults]
  const [projectPath] = paths
  const outFolder = values.get('out')
  if (projectPath === undefined || paths.length > 1)
    wrong.push(`expected one project file, got ${paths.length}`)
  if (outFolder === undefined) wrong.push('--out is missing: the folder to write to')
  const known = FORMATS.map(({ id }) => id)
  const formatIds = values.get('format')?.split(',') ?? known
  for (const id of formatIds) {
    if (!known.includes(id)) wrong.push(`--format is "${id}"; known: ${known.join(', ')}`)
  }
  const date = values.get('date') ?? today
  if (!isDay(date)) wrong.push(`--date is "${date}"; must be a calendar date such as 2026-11-25`)
  const paper = values.get('paper')
  const foundPaper = PAPERS.find((each) => each === paper) ?? null
  if (paper !== undefined && foundPaper === null) {
    wrong.push(`--paper is "${paper}"; known: ${PAPERS.join(', ')}`)
  }
  const count = (name: 'samples' | 'arrays', most: number) => {
    const typed = values.get(name) ?? String(COMMAND_DEFAULTS[name])
    if (!/^\d+$/.test(typed) || Number(typed) > most) {
      wrong.push(`--${name} is "${typed}"; must be a whole number, 0 to ${most}`)
    }
    return Number(typed)
  }
  const samples = count('samples', MOST_SAMPLES)
  const arrays = count('arrays', 200_000)
  if (wrong.length > 0 || projectPath === undefined || outFolder === undefined) return wrong
  return {
    projectPath,
    outFolder,
    formatIds,
    date,
    beforePath: values.get('before') ?? null,
    revision: values.get('revision') ?? null,
    designId: values.get('design') ?? null,
    paper: foundPaper,
    samples,
    arrays,
    figures,
    order,
  }
}
