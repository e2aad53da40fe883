import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { demoProject, projectText } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import type { DesignNumbers } from '../../src/report/command/designNumbers'
import { evaluateCommand } from '../../src/report/command/evaluateCommand'
import { readEvaluateOptions, readSweep } from '../../src/report/command/evaluateOptions'
import { findField, withChange } from '../../src/report/command/projectChange'

interface Results {
  readonly set: Readonly<Record<string, string>>
  readonly points: readonly {
    readonly at: Readonly<Record<string, string>>
    readonly designs: readonly DesignNumbers[]
  }[]
}

async function evaluated(...args: readonly string[]) {
  const said: string[] = []
  const complained: string[] = []
  const exit = await evaluateCommand(['demo.json', ...args], {
    readText: (path) => {
      if (path !== 'demo.json') throw new Error('no such file')
      return projectText(demoProject())
    },
    writeFile: () => undefined,
    say: (line) => said.push(line),
    complain: (line) => complained.push(line),
    today: '2026-01-02',
  })
  return { exit, said, complained }
}

async function results(...args: readonly string[]): Promise<Results> {
  const { said } = await evaluated(...args, '--json')
  return JSON.parse(said.join('\n')) as Results
}

/** Loss of the dry cleaved fibre with a gap set by hand. */
function lossAtGap(gapUm: number): number {
  const project = demoProject()
  const join = project.candidates.find(({ id }) => id === 'cleaved-dry')?.chain[1]
  if (join?.kind !== 'gap') throw new Error('the demo has another design')
  join.gap = quantityOf(gapUm, 'um')
  return evaluateCandidate(project, 'cleaved-dry').nominalDb
}

const GAP = 'candidates[cleaved-dry].chain[1].gap'
const ONE = ['--design', 'cleaved-dry'] as const

describe('the evaluate command', () => {
  test('prints every design with a budget that adds up, and the yield where it is asked for', async () => {
    const { points } = await results('--samples', '64')
    const designs = points[0]?.designs ?? []
    expect(designs.map(({ id }) => id)).toEqual(demoProject().candidates.map(({ id }) => id))
    for (const { id, nominalDb, lines, yield: run, verdicts, ...numbers } of designs) {
      const { returnLoss, rootSumSquare, worstCorner } = evaluateCandidate(demoProject(), id)
      expect(numbers).toMatchObject({
        rssDb: rootSumSquare.lossDb,
        worstCaseDb: worstCorner.lossDb,
        returnLossFibreDb: returnLoss.fibre.incoherentDb,
        returnLossChipDb: returnLoss.chip.incoherentDb,
      })
      expect(nominalDb).toBe(evaluateCandidate(demoProject(), id).nominalDb)
      expect(lines.reduce((sum, { lossDb }) => sum + lossDb, 0)).toBeCloseTo(nominalDb ?? Number.NaN, 9)
      expect(run?.samples).toBe(64)
      expect(verdicts.length).toBeGreaterThan(3)
    }
  })

  test('sets a value: with a unit, as an expression, by number or id of an entry', async () => {
    for (const word of [
      `${GAP}=10 um`,
      `${GAP}=10`,
      `${GAP}=0.01 mm`,
      `${GAP}=20/2 um`,
      'candidates[0].chain[gap].gap=10',
    ]) {
      const { points, set } = await results(...ONE, '--set', word)
      expect(points[0]?.designs[0]?.nominalDb, word).toBeCloseTo(lossAtGap(10), 12)
      expect(Object.values(set)).toHaveLength(1)
    }
  })

  test('sweeps values in equal steps, and two of them as a grid', async () => {
    const { points } = await results(...ONE, '--sweep', `${GAP}=0:20:3`)
    expect(points.map(({ at }) => at[GAP])).toEqual(['0', '10', '20'])
    expect(points.map(({ designs }) => designs[0]?.nominalDb)).toEqual([0, 10, 20].map(lossAtGap))
    const grid = await results(...ONE, '--sweep', `${GAP}=0:20:3`, '--sweep', 'requirements.channels=1:2:2')
    expect(grid.points).toHaveLength(6)
    expect(grid.points[1]?.at).toEqual({ [GAP]: '0', 'requirements.channels': '2' })
  })

  test.each([
    [
      ['--set', 'candidates[0].chain[1].gapp=3'],
      3,
      /"candidates\[0\]\.chain\[1\]" has no gapp; known: .*gap/,
    ],
    [['--set', 'fibres[none].mfdX=3'], 3, /"fibres" has no none; known: fibre-standard/],
    [['--set', `${GAP}=3 kg`], 3, /which is not a number/],
    [['--set', `${GAP}=-5 um`], 3, /gap.*−?-?5/],
    [['--set', 'candidates[0].chain=3'], 3, /a list or a record/],
    [['--set', 'nothing'], 3, /--set is "nothing"; must be path=value/],
    [['--sweep', `${GAP}=0:20:1`], 3, /count of 2 to/],
    [['--sweep', `${GAP}=0 um:20 deg:3`], 3, /path=from:to:count/],
    [['--design', 'nobody'], 3, /--design is "nobody"; the project has cleaved-dry/],
    [['--fast'], 3, /--fast is not an option/],
    [['other.json'], 3, /expected one project file, got 2/],
  ] as const)('refuses %j with the reason', async (args, exit, reason) => {
    const run = await evaluated(...args)
    expect(run.exit).toBe(exit)
    expect(run.complained.join('\n')).toMatch(reason)
    expect(run.said).toEqual([])
  })

  test('ends with 2 where a design cannot be evaluated, and says why; its numbers are null', async () => {
    const broken = ['--set', 'requirements.wavelength=4 um'] as const
    const { exit, complained } = await evaluated(...ONE, ...broken)
    expect(exit).toBe(2)
    expect(complained.join()).toMatch(/Cleaved fibre, dry: /)
    const { points } = await results(...ONE, ...broken)
    expect(points[0]?.designs[0]).toMatchObject({ nominalDb: null, lines: [], yield: null })
  })

  test('ends with 0 and without a complaint where every design is evaluated, whatever its verdicts', async () => {
    const { exit, said, complained } = await evaluated(...ONE)
    expect([exit, complained]).toEqual([0, []])
    expect(said.at(-1)).toMatch(/[1-9] not met$/)
  })

  test('ends with 4 where the file cannot be read', async () => {
    const world = {
      readText: () => {
        throw new Error('no such file')
      },
      writeFile: () => undefined,
      say: () => undefined,
      complain: (line: string) => complaints.push(line),
      today: '2026-01-02',
    }
    const complaints: string[] = []
    expect(await evaluateCommand(['gone.json'], world)).toBe(4)
    expect(complaints.join()).toBe('gone.json cannot be read: no such file')
  })
})

describe('a change of one value', () => {
  const set = async (project: Project, fieldPath: string, text: string): Promise<Project> => {
    const result = await withChange(project, { fieldPath, text })
    if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
    return result.value
  }

  test('keeps the tolerance of a quantity through another unit, and leaves the project as it was', async () => {
    const project = demoProject()
    const gapOf = ({ candidates }: Project) => {
      const join = candidates[0]?.chain[1]
      if (join?.kind !== 'gap') throw new Error('the demo has another design')
      return join.gap
    }
    const after = gapOf(await set(project, GAP, '0.004 mm'))
    expect(after).toMatchObject({ value: 0.004, unit: 'mm' })
    expect(after.tolerance?.plusMinus).toBeCloseTo((gapOf(project).tolerance?.plusMinus ?? 0) / 1000, 15)
    expect(project).toEqual(demoProject())
  })

  test('reaches numbers, words and what is inside a quantity', async () => {
    expect((await set(demoProject(), 'requirements.channels', '4')).requirements.channels).toBe(4)
    expect((await set(demoProject(), 'name', 'Other')).name).toBe('Other')
    const wide = await set(demoProject(), `${GAP}.tolerance.plusMinus`, '2.5')
    expect(wide.candidates[0]?.chain[1]).toMatchObject({ gap: { tolerance: { plusMinus: 2.5 } } })
  })

  test('is checked as a file is', async () => {
    const result = await withChange(demoProject(), { fieldPath: 'requirements.channels', text: '0.5' })
    expect(result.ok ? '' : result.issues[0]?.message).toMatch(/requirements\.channels/)
  })

  test('names what is there where a list has no such entry: ids, or numbers for entries without one', () => {
    const refusal = (project: Project, fieldPath: string) => {
      const found = findField(project, fieldPath)
      return found.ok ? '' : found.issues[0]?.message
    }
    const project = demoProject()
    expect(refusal(project, 'candidates[0].chain[9].gap')).toMatch(
      /"candidates\[0\]\.chain" has no 9; known: fibre, gap, facet$/,
    )
    const films = [1, 2].map(() => ({
      index: { kind: 'value' as const, index: quantityOf(1.46, '1') },
      thickness: quantityOf(100, 'nm'),
    }))
    const join = project.candidates[0]?.chain[1]
    if (join?.kind !== 'gap') throw new Error('the demo has another design')
    join.nearCoating = { kind: 'films', films }
    expect(refusal(project, 'candidates[0].chain[1].nearCoating.films[2]')).toMatch(/has no 2; known: 0, 1$/)
    expect(findField(project, 'candidates[0].chain[1].nearCoating.films[1].thickness').ok).toBe(true)
    expect(refusal(project, 'requirements.channels.first')).toBe('"requirements.channels" has no first')
    expect(refusal(project, 'nothing')).toMatch(/^The project has no nothing; known: /)
    expect(refusal(project, '')).toMatch(/is not a path such as/)
    expect(refusal(project, 'a[')).toMatch(/is not a path such as/)
  })

  test('finds no place through an inherited name', () => {
    expect(findField(demoProject(), '__proto__.polluted').ok).toBe(false)
    expect(findField(demoProject(), 'constructor').ok).toBe(false)
  })
})

describe('the options', () => {
  test('read a sweep with its unit on either side', () => {
    expect(readSweep('gap=0 um:10 um:3')?.texts).toEqual(['0 um', '5 um', '10 um'])
    expect(readSweep('gap=0:10 um:2')?.texts).toEqual(['0 um', '10 um'])
    expect(readSweep('gap=-1:1:2')?.texts).toEqual(['-1', '1'])
    expect(readSweep('gap=0:a:2')).toBeNull()
  })

  test('refuse grids too large to wait for', () => {
    const wide = ['p.json', '--sweep', 'a=0:1:200', '--sweep', 'b=0:1:200']
    expect(readEvaluateOptions(wide)).toEqual([expect.stringMatching(/40000 points together/)])
  })
})
