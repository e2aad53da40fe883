import { execFile } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readXlsx } from 'hucre/xlsx'
import { describe, expect, test } from 'vitest'
import { runArray } from '../../src/analysis/array/runArray'
import { sectionSolver } from '../../src/analysis/field/solvedSections'
import { checkRequirements, evaluateCandidate, runYield } from '../../src/analysis/index'
import { parseProject, projectText } from '../../src/model/index'
import { newCrossSection } from '../../src/model/parts/newCrossSection'
import { designOf, keepRevision } from '../../src/model/project/revisions'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { countText } from '../../src/numerics/numberText'
import { projectChecksum } from '../../src/report/canonical'
import type { CommandWorld, Simulations } from '../../src/report/command/commandWorld'
import { readOptions } from '../../src/report/command/options'
import { sheetCommand } from '../../src/report/command/sheetCommand'
import { PAPER_FORMATS } from '../../src/report/paperFormats'
import { numberAt } from '../report/support/recalculate'
import { sheetOf } from '../report/support/sheets'
import { askLoss, askPercentile } from '../support/askLoss'
import { twoDesigns } from '../support/twoDesigns'

const SAMPLES = 2000
const NO_RUNS = ['--samples', '0', '--arrays', '0', '--date', '2026-11-25']
const QUICK = ['--samples', `${SAMPLES}`, '--arrays', '32', '--date', '2026-11-25']

/** A machine of its own: files by name, and what was written and said. */
function world(files: Readonly<Record<string, string>>) {
  const written = new Map<string, string | Uint8Array>()
  const said: string[] = []
  const complained: string[] = []
  const machine: CommandWorld = {
    readText: (path) => {
      const text = files[path]
      if (text === undefined) throw new Error('no such file')
      return text
    },
    writeFile: (folder, name, content) => {
      written.set(`${folder}/${name}`, content)
    },
    say: (line) => said.push(line),
    complain: (line) => complained.push(line),
    today: '2026-01-02',
  }
  return { machine, written, said, complained }
}

const text = (edit: (project: Project) => void = () => {}) => {
  const project = twoDesigns()
  edit(project)
  return projectText(project)
}

describe('the sheet command', () => {
  test('writes every format by the code of the page, and ends with 0 where every requirement is met', async () => {
    const eased = (project: Project) => {
      askLoss(project, { limitDb: 4 }) // the demo misses its 2 dB over temperature
    }
    const { machine, written, complained } = world({ 'a/demo.json': text(eased) })
    expect(await sheetCommand(['a/demo.json', '--out', 'out', ...NO_RUNS], machine)).toBe(0)
    expect(complained).toEqual([])
    expect([...written.keys()]).toEqual(
      ['xlsx', 'html', 'md', 'csv', 'json'].map((ending) => `out/demo-sheet.${ending}`),
    )
    const project = twoDesigns()
    eased(project)
    const json = JSON.parse(String(written.get('out/demo-sheet.json'))) as { checksum: string; date: string }
    expect(json.checksum).toBe(sheetOf(project).head.checksum)
    expect(json.date).toBe('2026-11-25')
  })

  test('ends with 1 and the reasons where a requirement is not met', async () => {
    const { machine, complained } = world({ 'demo.json': text() })
    const args = ['demo.json', '--out', 'out', '--format', 'md', '--design', 'cleaved-dry', ...NO_RUNS]
    expect(await sheetCommand(args, machine)).toBe(1)
    const unmet = checkRequirements(twoDesigns(), evaluateCandidate(twoDesigns(), 'cleaved-dry')).filter(
      ({ status }) => status === 'not met',
    )
    expect(unmet.map(({ id }) => id)).toContain('return-loss-fibre')
    expect(complained).toEqual(
      unmet.map(({ label, reason }) => `Cleaved fibre, dry, not met: ${label} (${reason})`),
    )
    expect(complained[0]).toBe('Cleaved fibre, dry, not met: Loss ≤ 2 dB, RSS (6.39 dB; limit 2 dB)')
  })

  test('judges a percentile by a run of its own', async () => {
    const file = text((project) => {
      askPercentile(project)
    })
    const { machine, complained, said } = world({ 'demo.json': file })
    expect(await sheetCommand(['demo.json', '--out', 'out', '--format', 'csv', ...QUICK], machine)).toBe(1)
    expect(complained.join()).toContain(`at 95 % confidence, ${countText(SAMPLES)} samples`)
    expect(said.join()).not.toContain('needs a yield run')
  })

  test('runs designs at the same time where the machine can, and gives the same files in whatever order they end', async () => {
    const args = ['demo.json', '--out', 'out', '--format', 'json', ...QUICK]
    const alone = world({ 'demo.json': text() })
    await sheetCommand(args, alone.machine)
    // Yields end last begun first, and only once an array has been requested with them.
    const held: (() => void)[] = []
    const begun: string[] = []
    const simulations: Simulations = {
      yieldOf: (project, id, samples) =>
        new Promise((resolve) => {
          begun.push(`yield ${id}`)
          held.push(() => resolve(runYield(project, id, { samples })))
        }),
      arrayOf: async (project, id, samples) => {
        begun.push(`array ${id}`)
        for (const release of held.splice(0).toReversed()) release()
        return runArray(project, id, { samples })
      },
    }
    const together = world({ 'demo.json': text() })
    await sheetCommand(args, { ...together.machine, simulations })
    expect(begun).toEqual(['yield cleaved-dry', 'yield high-na-bonded', 'array high-na-bonded'])
    expect(together.written.get('out/demo-sheet.json')).toBe(alone.written.get('out/demo-sheet.json'))
  })

  test('says why a run failed that it asked for', async () => {
    const { machine, complained } = world({ 'demo.json': text() })
    const failing = async (): Promise<never> => {
      throw new Error('a thread broke')
    }
    const args = ['demo.json', '--out', 'out', '--format', 'json', ...QUICK]
    const code = await sheetCommand(args, {
      ...machine,
      simulations: { yieldOf: failing, arrayOf: failing },
    })
    expect(complained).toEqual(['a thread broke'])
    expect(code).toBe(2)
  })

  test('compares with another file or a kept revision, and prints a kept revision', async () => {
    const later = text((project) => {
      keepRevision(project, designOf(twoDesigns()), { name: 'A', date: '2026-11-01', remark: '' })
      project.facets[0]!.mfdX.value = 3.6
    })
    const { machine, written } = world({ 'later.json': later, 'first.json': text() })
    const args = ['later.json', '--out', 'out', '--format', 'json', ...NO_RUNS]
    await sheetCommand([...args, '--before', 'first.json'], machine)
    const byFile = String(written.get('out/later-sheet.json')).replaceAll('first.json', 'A')
    await sheetCommand([...args, '--before', 'A'], machine)
    expect(String(written.get('out/later-sheet.json'))).toBe(byFile)
    expect(byFile).toContain('Silicon-nitride facet: MFD x')
    await sheetCommand([...args, '--revision', 'A'], machine)
    const sheet = JSON.parse(String(written.get('out/later-sheet.json'))) as {
      revision: string
      checksum: string
    }
    expect(sheet.revision).toBe('A')
    expect(sheet.checksum).toBe(sheetOf(twoDesigns()).head.checksum)
  })

  test('uses the mode of a cross-section as the page does, also in the spreadsheet', async () => {
    const file = text((project) => {
      project.facets[0]!.crossSection = newCrossSection(0.6, 0.2)
      project.facets[0]!.modeShape = { kind: 'cross-section' }
    })
    const { machine, written, complained } = world({ 'demo.json': file })
    const formats = ['--format', 'json,xlsx', '--design', 'cleaved-dry']
    await sheetCommand(['demo.json', '--out', 'out', ...formats, ...NO_RUNS], machine)
    const project = parseProject(JSON.parse(file))
    const solved = sectionSolver((_, reason) => complained.push(reason))(project)
    const { nominalDb } = evaluateCandidate(solved, 'cleaved-dry')
    expect(Math.abs(nominalDb - evaluateCandidate(project, 'cleaved-dry').nominalDb)).toBeGreaterThan(0.5)
    const json = String(written.get('out/demo-sheet.json'))
    expect(json).toContain(String(nominalDb))
    expect(json).toContain('Non-Gaussian modes')
    expect(json).not.toContain('not solved yet')
    expect(JSON.parse(json)).toMatchObject({ checksum: projectChecksum(project) })
    const workbook = await readXlsx(written.get('out/demo-sheet.xlsx') as Uint8Array)
    expect(numberAt(workbook, 'budget1_nominal')).toBeCloseTo(nominalDb, 9)
  })

  test('writes every figure as a drawing and as numbers where asked', async () => {
    const { machine, written } = world({ 'demo.json': text() })
    await sheetCommand(['demo.json', '--out', 'out', '--format', 'md', '--figures', ...QUICK], machine)
    const names = [...written.keys()]
    expect(names).toContain('out/demo-section-gap.svg')
    expect(names).toContain('out/demo-array.csv')
    expect(names.filter((name) => name.endsWith('.svg'))).toHaveLength(10)
  })

  test('writes the papers of the order where asked, as the Order page saves them', async () => {
    const { machine, written } = world({ 'demo.json': text() })
    await sheetCommand(
      ['demo.json', '--out', 'out', '--format', 'csv,json', '--order', '--design', 'cleaved-dry', ...NO_RUNS],
      machine,
    )
    expect([...written.keys()].filter((name) => !name.includes('demo-sheet.')).toSorted()).toEqual([
      'out/demo-inspection-plan.csv',
      'out/demo-inspection-plan.json',
      'out/demo-process-sheet.csv',
      'out/demo-purchase-specification.csv',
      'out/demo-purchase-specification.json',
    ])
    const project = parseProject(JSON.parse(text()))
    const candidate = project.candidates.find(({ id }) => id === 'cleaved-dry')!
    const evaluation = evaluateCandidate(project, candidate.id)
    const request = { project, candidate, evaluation, date: '2026-11-25' }
    const json = PAPER_FORMATS.find(({ id }) => id === 'json')!
    const saved = JSON.parse(String(await json.render('specification', request))) as { checksum: string }
    const own = JSON.parse(String(written.get('out/demo-purchase-specification.json'))) as typeof saved
    // The command chose the design itself, which is part of the checksum.
    expect({ ...own, checksum: saved.checksum }).toEqual(saved)
  })

  test.each([
    ['a missing file', ['no.json', '--out', 'out'], 'no.json cannot be read: no such file', 4],
    ['a broken file', ['broken.json', '--out', 'out'], 'broken.json is not a usable project:', 4],
    [
      'an unknown candidate',
      ['demo.json', '--out', 'o', '--design', 'x'],
      '--design is "x"; the project has cleaved-dry, high-na-bonded',
      3,
    ],
    [
      'an unknown revision',
      ['demo.json', '--out', 'o', '--revision', 'x'],
      '--revision is "x"; the project has no such revision',
      3,
    ],
    [
      'an unknown design by the earlier name of the option',
      ['demo.json', '--out', 'o', '--candidate', 'x'],
      '--design is "x"; the project has cleaved-dry, high-na-bonded',
      3,
    ],
    [
      'a number of arrays by the earlier name of the option',
      ['demo.json', '--out', 'o', '--blocks', 'x'],
      '--arrays is "x"; must be a whole number',
      3,
    ],
    ['no folder', ['demo.json'], '--out is missing: the folder to write to', 3],
    [
      'a day that the calendar lacks',
      ['demo.json', '--out', 'o', '--date', '2026-02-29'],
      '--date is "2026-02-29"',
      3,
    ],
  ])('refuses %s with the reason and the exit code of its kind', async (_, args, reason, code) => {
    const { machine, complained, written } = world({ 'demo.json': text(), 'broken.json': '{"format":1}' })
    expect(await sheetCommand(args, machine)).toBe(code)
    expect(complained.join('\n')).toContain(reason)
    expect(complained.join('\n')).not.toMatch(/\n\s+at /)
    expect(written.size).toBe(0)
  })

  test('ends with 4 where a file cannot be written, and says which', async () => {
    const { machine, complained } = world({ 'demo.json': text() })
    const full = {
      ...machine,
      writeFile: () => {
        throw new Error('disk full')
      },
    }
    expect(await sheetCommand(['demo.json', '--out', 'out', '--format', 'md', ...NO_RUNS], full)).toBe(4)
    expect(complained.at(-1)).toBe('demo-sheet.md cannot be written to out: disk full')
  })

  test('ends with 2 where a requirement is not known, however many are met; a wish decides nothing', async () => {
    const unknown = (project: Project) => {
      askLoss(project, { limitDb: 4 })
      project.requirements.polarisation = 'any'
      project.requirements.polarisationDependentLoss = quantityOf(1, 'dB')
    }
    const args = ['demo.json', '--out', 'out', '--format', 'md', ...NO_RUNS]
    const open = world({ 'demo.json': text(unknown) })
    expect(await sheetCommand(args, open.machine)).toBe(2)
    expect(open.said.join('\n')).toContain('not evaluated: PDL ≤ 1 dB')
    const wished = world({
      'demo.json': text((project) => {
        unknown(project)
        project.requirements.wishes = ['pdl']
      }),
    })
    expect(await sheetCommand(args, wished.machine)).toBe(0)
    expect(wished.said.join('\n')).toContain('desirable, not evaluated: PDL ≤ 1 dB')
  })

  test('says its use where asked for it', async () => {
    const { machine, said } = world({})
    expect(await sheetCommand(['--help'], machine)).toBe(0)
    expect(said[0]).toContain(
      'Exit code: 0 the selected design meets every requirement; 1 a requirement is not met',
    )
  })

  test.each([
    ['2024-02-29', true],
    ['1900-02-29', false],
    ['2026-04-31', false],
    ['2026-13-01', false],
    ['2026-00-10', false],
  ])('reads the day %s: %s', (day, good) => {
    const read = readOptions(['a.json', '--out', 'o', '--date', day], '2026-01-01')
    expect('date' in read).toBe(good)
  })

  test('names every fault of its options', () => {
    const wrong = readOptions(
      ['a', 'b', '--out', '--format', 'pdf', '--date', 'today', '--samples', '-3', '--paper', 'A3', '--loud'],
      '2026-01-02',
    )
    expect(wrong).toEqual([
      '--out needs a value',
      '--loud is not an option',
      'expected one project file, got 2',
      '--out is missing: the folder to write to',
      '--format is "pdf"; known: xlsx, html, md, csv, json',
      '--date is "today"; must be a calendar date such as 2026-11-25',
      '--paper is "A3"; known: A4, Letter',
      '--samples is "-3"; must be a whole number, 0 to 10000000',
    ])
  })
})

describe('npm run sheet', () => {
  const run = (args: readonly string[]) =>
    new Promise<{ code: number; errors: string }>((resolve) => {
      execFile('node', ['.config/command.mjs', 'sheet', ...args], (error, _, errors) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, errors })
      })
    })

  test('writes the same bytes as the command in this process, and reports a requirement that is not met by exit code 1', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sheet-'))
    try {
      const file = join(folder, 'demo.json')
      writeFileSync(file, text())
      const args = [file, ...QUICK, '--design', 'cleaved-dry']
      const out = join(folder, 'out')
      const { code, errors } = await run([...args, '--out', out])
      expect(code).toBe(1)
      expect(errors).toContain('not met: Loss ≤ 2 dB')
      const { machine, written } = world({ [file]: text() })
      expect(await sheetCommand([...args, '--out', out], machine)).toBe(1)
      expect(readdirSync(out)).toHaveLength(5)
      for (const name of readdirSync(out)) {
        const here = written.get(join(out, name)) ?? ''
        expect(readFileSync(join(out, name)).equals(Buffer.from(here as string)), name).toBe(true)
      }
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
