// What the sheet command says and ends with, on designs that need no runs; its files are read in tests/e2e/command.test.ts.

import { describe, expect, test } from 'vitest'
import { projectText } from '../../../src/model/index'
import type { Project } from '../../../src/model/schema/project'
import { sheetCommand } from '../../../src/report/command/sheetCommand'
import { askLoss } from '../../support/askLoss'
import { twoDesigns } from '../../support/twoDesigns'

/** One design that is judged by its nominal loss alone. */
function oneDesign(limitDb: number): Project {
  const project = askLoss(twoDesigns(), { limitDb, basis: 'nominal' })
  const { direction, wavelength, channels, pitch, losses, station } = project.requirements
  const { temperatureMin } = project.requirements
  return {
    ...project,
    candidates: project.candidates.slice(0, 1),
    requirements: {
      ...{ direction, wavelength, channels, pitch, losses, station, temperatureMin },
      temperatureMax: temperatureMin,
      polarisation: 'any',
      collimatedSection: false,
      bonding: 'free choice',
      wishes: ['temperature'], // the demo defines no mount that would answer it
    },
  }
}

async function run(project: Project, ...args: readonly string[]) {
  const written: string[] = []
  const said: string[] = []
  const complained: string[] = []
  const exit = await sheetCommand([...args], {
    readText: (path) => {
      if (path !== 'a/my demo.JSON') throw new Error('no such file')
      return projectText(project)
    },
    writeFile: (folder, name) => written.push(`${folder}/${name}`),
    say: (line) => said.push(line),
    complain: (line) => complained.push(line),
    today: '2026-01-02',
  })
  return { exit, written, said, complained }
}

const SHEET = [
  'a/my demo.JSON',
  '--out',
  'out',
  '--format',
  'csv',
  '--samples',
  '0',
  '--arrays',
  '0',
] as const

describe('the sheet command', () => {
  test.each(['--help', '-h'])(
    'says its use for %s, whatever else is there, and does nothing',
    async (word) => {
      const { exit, written, said, complained } = await run(oneDesign(9), 'none.json', word)
      expect([exit, written, complained]).toEqual([0, [], []])
      expect(said.join()).toContain('Exit code: 0 the selected design meets every requirement')
    },
  )

  test('says its use after what is wrong with the options, and ends with 3', async () => {
    const { exit, written, complained } = await run(oneDesign(9), ...SHEET, '--colour', 'red')
    expect([exit, written]).toEqual([3, []])
    expect(complained[0]).toBe('--colour is not an option')
    expect(complained.at(-1)).toContain('Exit code:')
  })

  test('ends with 0 above the loss and with 1 and the reason below it, its file named after the project', async () => {
    const met = await run(oneDesign(9), ...SHEET)
    expect([met.exit, met.complained]).toEqual([0, []])
    expect(met.written).toEqual(['out/my-demo-sheet.csv'])
    expect(met.said).toEqual([
      'my-demo-sheet.csv written',
      'Cleaved fibre, dry, desirable, not evaluated: Loss at −20 to −20 °C (no mount defined)',
    ])
    const missed = await run(oneDesign(0.1), ...SHEET)
    expect(missed.exit).toBe(1)
    expect(missed.complained).toEqual([
      expect.stringMatching(/^Cleaved fibre, dry, not met: Loss ≤ 0\.1 dB, nominal/),
    ])
  })

  test('ends with 2 where there is no design, and still writes the document', async () => {
    const none = { ...oneDesign(9), candidates: [] }
    const { exit, written, complained } = await run(none, ...SHEET)
    expect(exit).toBe(2)
    expect(complained).toEqual(['no design can be evaluated'])
    expect(written).toEqual(['out/my-demo-sheet.csv'])
    const ordered = await run(none, ...SHEET, '--order')
    expect(ordered.written).toEqual(['out/my-demo-sheet.csv'])
  })

  test('ends with 2 and the fault where the only design cannot be evaluated', async () => {
    const broken = oneDesign(9)
    for (const element of broken.candidates[0]?.chain ?? [])
      if (element.kind === 'gap') element.mediumId = 'none'
    const { exit, complained } = await run(broken, ...SHEET)
    expect(exit).toBeGreaterThanOrEqual(2)
    expect(complained.join()).toContain('none')
  })

  test('ends with 3 for a design or a revision that the project does not have, and names those that it has', async () => {
    const design = await run(oneDesign(9), ...SHEET, '--design', 'other')
    expect([design.exit, design.complained]).toEqual([
      3,
      ['--design is "other"; the project has cleaved-dry'],
    ])
    const revision = await run(oneDesign(9), ...SHEET, '--revision', 'other')
    expect(revision.exit).toBe(3)
    expect(revision.complained).toEqual(['--revision is "other"; the project has no such revision'])
  })

  test('ends with 4 where the file cannot be read', async () => {
    const { exit, complained } = await run(oneDesign(9), 'other.json', '--out', 'out')
    expect([exit, complained]).toEqual([4, ['other.json cannot be read: no such file']])
  })
})
