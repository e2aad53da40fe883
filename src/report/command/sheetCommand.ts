// The sheet without the page: reads a project, writes the files that were asked for, and says whether the chosen candidate
// meets its requirements. Everything outside comes in as functions.

import { blockOf } from '../../analysis/array/block'
import type { ArrayResult } from '../../analysis/array/runArray'
import { sectionSolver } from '../../analysis/field/solvedSections'
import { tryEvaluate } from '../../analysis/index'
import { type NeededRun, statusText } from '../../analysis/results/verdict'
import { musts } from '../../analysis/verdicts/verdictGroups'
import { FONT_FACE } from '../../figures/render/fontFace'
import { figureFileName, svgFile } from '../../figures/render/picture'
import { issueText } from '../../model/issue'
import { restoredProject } from '../../model/project/revisions'
import type { Project } from '../../model/schema/project'
import { finish } from '../../numerics/steps'
import { chosenCandidate, type Evaluate, NO_RUNS, type SheetRuns, sheetCandidates } from '../candidates'
import { figuresOf } from '../document/figureBlock'
import { measuredEvidence } from '../evidence'
import { FORMATS } from '../formats'
import { tableText } from '../formats/csv'
import { PAPER_FORMATS } from '../paperFormats'
import { PAPER_FILE_NAMES, PAPER_KINDS } from '../papers'
import { buildSheet, type EarlierState, type Sheet } from '../sheet'
import { missingRuns } from '../summary/missingRuns'
import {
  CommandFault,
  type CommandWorld,
  EXIT,
  guarded,
  HERE,
  readProjectAt,
  type Simulations,
} from './commandWorld'
import { readOptions, type SheetOptions, USAGE } from './options'

function revisionOf(project: Project, name: string): Project | null {
  const found = project.revisions?.find((each) => each.name === name)
  return found === undefined ? null : restoredProject(project, found.id)
}

/** The state that the options ask for, as the file keeps it. */
function filedState(file: Project, { revision }: SheetOptions): Project {
  const project = revision === null ? file : revisionOf(file, revision)
  if (project === null)
    throw new CommandFault(`--revision is "${revision}"; the project has no such revision`, EXIT.badUse)
  return project
}

/** The same as the options want it shown. */
function shownProject(project: Project, { designId, paper }: SheetOptions): Project {
  if (designId !== null && !project.candidates.some(({ id }) => id === designId)) {
    const known = project.candidates.map(({ id }) => id).join(', ')
    throw new CommandFault(`--design is "${designId}"; the project has ${known || 'none'}`, EXIT.badUse)
  }
  if (designId === null && paper === null) return project
  return {
    ...project,
    review: {
      ...project.review,
      ...(designId === null ? {} : { chosenId: designId }),
      ...(paper === null ? {} : { paper }),
    },
  }
}

function earlierState(world: CommandWorld, file: Project, path: string): EarlierState {
  const kept = revisionOf(file, path)
  return { name: path, project: kept ?? readProjectAt(world, path) }
}

/** The same, each design of a project evaluated once: the runs that are missing, their arrays and the sheet all ask for it. */
function evaluatedOnce(evaluate: Evaluate): Evaluate {
  const known = new WeakMap<Project, Map<string, ReturnType<Evaluate>>>()
  return (project, id) => {
    const designs = known.get(project) ?? new Map<string, ReturnType<Evaluate>>()
    known.set(project, designs)
    const result = designs.get(id) ?? evaluate(project, id)
    designs.set(id, result)
    return result
  }
}

/**
 * The runs that the document asks for. Arrays that only the yields make necessary follow them; those that are requested before run
 * alongside them, and are omitted where the yields change what is requested.
 */
async function runsOf(
  project: Project,
  withModes: Project,
  evaluate: Evaluate,
  { samples, arrays: arraySamples }: SheetOptions,
  simulations: Simulations,
): Promise<SheetRuns> {
  const wanted = (runs: SheetRuns, kind: NeededRun) => {
    const seen = finish(sheetCandidates(project, evaluate, runs))
    const chosenId = chosenCandidate(project, seen)?.candidate.id ?? ''
    const missing = missingRuns(project, seen.candidates, chosenId)
    return missing.flatMap((each) => (each.kind === kind ? [each.candidateId] : []))
  }
  const begun = new Map<string, Promise<ArrayResult>>()
  const beginArrays = (runs: SheetRuns): readonly string[] => {
    if (arraySamples === 0) return []
    const ids = wanted(runs, 'array').filter((id) => blockOf(withModes, id).ok)
    for (const id of ids) {
      if (begun.has(id)) continue
      const run = simulations.arrayOf(withModes, id, arraySamples)
      run.catch(() => undefined) // handled where it is awaited; one that is omitted may fail
      begun.set(id, run)
    }
    return ids
  }
  const yieldIds = samples === 0 ? [] : wanted(NO_RUNS, 'yield')
  const running = yieldIds.map(async (id) => [id, await simulations.yieldOf(withModes, id, samples)] as const)
  if (simulations !== HERE) beginArrays(NO_RUNS)
  const yields = new Map(await Promise.all(running))
  const arrayIds = beginArrays({ yields, arrays: NO_RUNS.arrays })
  const arrays = new Map<string, ArrayResult>()
  for (const id of arrayIds) {
    const run = await begun.get(id)
    if (run !== undefined) arrays.set(id, run)
  }
  return { yields, arrays }
}

const stemOf = (path: string) =>
  path
    .replace(/^.*[\\/]/, '')
    .replace(/\.json$/i, '')
    .replace(/[^\w.-]+/g, '-')

async function writeAll(
  world: CommandWorld,
  options: SheetOptions,
  sheet: Sheet,
  project: Project,
): Promise<void> {
  const { outFolder, formatIds, figures, order } = options
  const write = (name: string, content: string | Uint8Array) => {
    try {
      world.writeFile(outFolder, name, content)
    } catch (error) {
      throw new CommandFault(
        `${name} cannot be written to ${outFolder}: ${error instanceof Error ? error.message : String(error)}`,
        EXIT.fileTrouble,
      )
    }
    world.say(`${name} written`)
  }
  const stem = stemOf(options.projectPath)
  const nameOf = (figure: { readonly id: string }) => `${stem}-${figureFileName(figure)}`
  const beside = figures ? (figure: { readonly id: string }) => `${nameOf(figure)}.svg` : undefined
  for (const { id, ending, render } of FORMATS) {
    if (formatIds.includes(id)) write(`${stem}-sheet${ending}`, await render(sheet, project, beside))
  }
  for (const figure of figures ? figuresOf(sheet.sections) : []) {
    const name = nameOf(figure)
    write(`${name}.svg`, svgFile(figure.drawing, FONT_FACE))
    write(`${name}.csv`, tableText(figure.table))
  }
  if (!order || sheet.chosen === null) return
  const { candidate, evaluation } = sheet.chosen.candidate
  const request = { project, candidate, evaluation, date: options.date, revision: sheet.head.revision }
  for (const kind of PAPER_KINDS) {
    for (const { id, ending, kinds, render } of PAPER_FORMATS) {
      if (!formatIds.includes(id) || !kinds.includes(kind)) continue
      write(`${stem}-${PAPER_FILE_NAMES[kind]}${ending}`, await render(kind, request))
    }
  }
}

/** Reports the verdicts of the chosen design. Wishes are listed and decide nothing. */
function judged(world: CommandWorld, { chosen, refused }: Sheet): number {
  for (const { name, issues } of refused) {
    world.complain(`${name} is not evaluated: ${issues.map(issueText).join('; ')}`)
  }
  if (chosen === null) {
    world.complain('no design can be evaluated')
    return EXIT.notKnown
  }
  const { name, verdicts } = chosen.candidate
  const decisive = musts(verdicts)
  for (const { label, reason, status, wish } of verdicts) {
    if (wish === true && status !== 'met')
      world.say(`${name}, desirable, ${statusText(status)}: ${label} (${reason})`)
  }
  const of = (status: string) => decisive.filter((each) => each.status === status)
  for (const { label, reason } of of('not known')) world.say(`${name}, not evaluated: ${label} (${reason})`)
  for (const { label, reason } of of('not met')) world.complain(`${name}, not met: ${label} (${reason})`)
  if (of('not met').length > 0) return EXIT.notMet
  return of('not known').length > 0 ? EXIT.notKnown : EXIT.met
}

/** The exit code, one of EXIT. Nothing that goes wrong shows a stack trace. */
export async function sheetCommand(args: readonly string[], world: CommandWorld): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    world.say(USAGE)
    return EXIT.met
  }
  const options = readOptions(args, world.today)
  if (!('projectPath' in options)) {
    for (const fault of options) world.complain(fault)
    world.complain(USAGE)
    return EXIT.badUse
  }
  return guarded(world, async () => {
    const file = readProjectAt(world, options.projectPath)
    const project = shownProject(filedState(file, options), options)
    const solved = sectionSolver((name, reason) => world.complain(`${name}: ${reason}`))
    const evaluate = evaluatedOnce((each, id) => tryEvaluate(solved(each), id))
    const runs = await runsOf(project, solved(project), evaluate, options, world.simulations ?? HERE)
    const sheet = buildSheet({
      project,
      evaluate,
      withModes: solved,
      date: options.date,
      ...(options.revision === null ? {} : { revision: options.revision }),
      ...(options.beforePath === null ? {} : { before: earlierState(world, file, options.beforePath) }),
      runs,
      evidence: measuredEvidence(project.measurements),
    })
    await writeAll(world, options, sheet, solved(project))
    return judged(world, sheet)
  })
}
