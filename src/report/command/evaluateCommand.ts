// Numbers of a project for scripts: evaluates its designs, with values changed or swept, and prints a table or JSON.

import { sectionSolver } from '../../analysis/field/solvedSections'
import { issueText } from '../../model/issue'
import { lossText } from '../../model/quantity/lossText'
import type { Project } from '../../model/schema/project'
import { percentText } from '../../numerics/numberText'
import { CommandFault, type CommandWorld, EXIT, guarded, readProjectAt } from './commandWorld'
import { type DesignNumbers, designNumbers } from './designNumbers'
import { EVALUATE_USAGE, type EvaluateOptions, readEvaluateOptions, type Sweep } from './evaluateOptions'
import { type ProjectChange, withChange } from './projectChange'

/** One point of the sweeps: what was set for it, and its designs. */
interface Point {
  readonly at: Readonly<Record<string, string>>
  readonly designs: readonly DesignNumbers[]
}

/** All combinations of the swept values, the last sweep fastest; one without a change where nothing is swept. */
function combinations(sweeps: readonly Sweep[]): readonly (readonly ProjectChange[])[] {
  return sweeps.reduce<readonly (readonly ProjectChange[])[]>(
    (before, { fieldPath, texts }) =>
      before.flatMap((changes) => texts.map((text) => [...changes, { fieldPath, text }])),
    [[]],
  )
}

async function changed(project: Project, changes: readonly ProjectChange[]): Promise<Project> {
  let now = project
  for (const change of changes) {
    const result = await withChange(now, change)
    if (!result.ok) throw new CommandFault(result.issues.map(issueText).join('\n'), EXIT.badUse)
    now = result.value
  }
  return now
}

const atOf = (changes: readonly ProjectChange[]) =>
  Object.fromEntries(changes.map(({ fieldPath, text }) => [fieldPath, text]))

/** The ids that are requested, all where none is. */
function askedDesigns(project: Project, { designIds }: EvaluateOptions): readonly string[] {
  const known = project.candidates.map(({ id }) => id)
  const missing = designIds.filter((id) => !known.includes(id))
  if (missing.length > 0) {
    const message = `--design is "${missing.join(', ')}"; the project has ${known.join(', ') || 'none'}`
    throw new CommandFault(message, EXIT.badUse)
  }
  return designIds.length > 0 ? designIds : known
}

const shown = (lossDb: number | null) => (lossDb === null ? '–' : lossText(lossDb))

function rowOf({ at }: Point, design: DesignNumbers): readonly string[] {
  const unmet = design.verdicts.filter(({ status }) => status === 'not met').length
  return [
    ...Object.values(at),
    design.name,
    ...[design.nominalDb, design.rssDb, design.worstCaseDb, design.yield?.p95Db ?? null].map(shown),
    design.yield === null ? '–' : percentText(design.yield.yield, 1),
    design.faults.length > 0 ? 'not evaluated' : `${unmet} not met`,
  ]
}

/** Columns set apart by spaces, for people. */
function tableLines(points: readonly Point[]): readonly string[] {
  const head = ['Design', 'Nominal, dB', 'RSS', 'Worst case', 'P95', 'Yield', 'Requirements']
  const rows = [
    [...Object.keys(points[0]?.at ?? {}), ...head],
    ...points.flatMap((point) => point.designs.map((design) => rowOf(point, design))),
  ]
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0))) ?? []
  return rows.map((row) =>
    row
      .map((cell, at) => cell.padEnd(widths[at] ?? 0))
      .join('  ')
      .trimEnd(),
  )
}

/** The exit code, one of EXIT. Nothing that goes wrong shows a stack trace. */
export async function evaluateCommand(args: readonly string[], world: CommandWorld): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    world.say(EVALUATE_USAGE)
    return EXIT.met
  }
  const options = readEvaluateOptions(args)
  if (!('projectPath' in options)) {
    for (const fault of options) world.complain(fault)
    world.complain(EVALUATE_USAGE)
    return EXIT.badUse
  }
  return guarded(world, async () => {
    const project = await changed(readProjectAt(world, options.projectPath), options.changes)
    const ids = askedDesigns(project, options)
    const solved = sectionSolver((name, reason) => world.complain(`${name}: ${reason}`))
    const points: Point[] = []
    for (const changes of combinations(options.sweeps)) {
      const here = solved(await changed(project, changes))
      const designs = ids.map((id) => designNumbers(here, id, options.samples))
      points.push({ at: atOf(changes), designs })
    }
    const results = {
      format: 'modeseam-results',
      version: 1,
      project: project.name,
      set: atOf(options.changes),
      points,
    }
    for (const line of options.json ? [JSON.stringify(results, null, 2)] : tableLines(points)) world.say(line)
    const faults = new Set(
      points.flatMap(({ designs }) =>
        designs.flatMap(({ name, faults }) => faults.map((fault) => `${name}: ${fault}`)),
      ),
    )
    for (const fault of faults) world.complain(fault)
    return faults.size > 0 ? EXIT.notKnown : EXIT.met
  })
}
