import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate, runYield } from '../../src/analysis/index'
import { spectrum } from '../../src/analysis/light/spectrum'
import { toleranceWindows } from '../../src/analysis/tolerance/toleranceCurve'
import { seenJoint } from '../../src/analysis/tolerance/viewWindows'
import { quantityOf } from '../../src/model/quantity/quantity'
import { jointLossDb } from '../../src/optics/index'
import { documentCellText, fixedCell, percentCell } from '../../src/report/document/cells'
import { figuresOf } from '../../src/report/document/figureBlock'
import { SECTIONS } from '../../src/report/sections'
import { PROGRAM_VERSION } from '../../src/report/sheet'
import { askLoss, askPercentile } from '../support/askLoss'
import { twoDesigns } from '../support/twoDesigns'
import { withoutTolerances } from '../support/withoutTolerances'
import { longProject } from './support/longProject'
import { CHOSEN, demoRuns, numberOf, rowOf, sheetOf, tablesOf } from './support/sheets'

const titles = (sheet: ReturnType<typeof sheetOf>) => sheet.sections.map(({ id }) => id)

describe('the review sheet', () => {
  test('carries the numbers of the core, and its lines add up to its total', () => {
    const project = twoDesigns()
    const sheet = sheetOf(project)
    expect(sheet.candidates.map((each) => each.id)).toEqual(project.candidates.map((each) => each.id))
    const budgets = [...tablesOf(sheet, 'budget').slice(0, 1), ...tablesOf(sheet, 'other-budgets')]
    expect(budgets).toHaveLength(2)
    for (const [table, id] of [
      [budgets[0], CHOSEN],
      [budgets[1], 'cleaved-dry'],
    ] as const) {
      const evaluation = evaluateCandidate(project, id)
      const lines = evaluation.lines.map((line) => numberOf(rowOf(table, line.id)[1]))
      expect(lines).toEqual(evaluation.lines.map(({ lossDb }) => lossDb))
      expect(lines.reduce((sum, db) => sum + db, 0)).toBeCloseTo(evaluation.nominalDb, 9)
      expect(numberOf(rowOf(table, 'total-Nominal')[1])).toBe(evaluation.nominalDb)
      expect(numberOf(rowOf(table, 'total-Worst case')[1])).toBe(evaluation.worstCorner.lossDb)
      expect(numberOf(rowOf(table, 'total-RSS')[1])).toBe(evaluation.rootSumSquare.lossDb)
      const shares = evaluation.lines.map((line) => numberOf(rowOf(table, line.id)[2]))
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 9)
    }
  })

  test('has every section that has something to say, in the order of the list', () => {
    const shown = titles(sheetOf(twoDesigns(), { runs: demoRuns() }))
    // None of these is in the demo; the decision and all signatures are on the first page.
    const silent = ['choice', 'fields', 'power', 'lifetime', 'evidence', 'changes', 'sign-off']
    expect(shown).toEqual(SECTIONS.map(({ id }) => id).filter((id) => !silent.includes(id)))
  })

  test('leaves out what is ticked off, and carries remarks where they belong', () => {
    const project = twoDesigns()
    project.review = { left: ['order', 'array'], remarks: { job: 'Limit agreed in March.' } }
    const sheet = sheetOf(project)
    expect(titles(sheet)).not.toContain('order')
    expect(titles(sheet)).not.toContain('array')
    expect(sheet.sections.find(({ id }) => id === 'job')).toMatchObject({ remark: 'Limit agreed in March.' })
  })

  test('proposes the candidate with the fewest requirements not met until a person chooses another', () => {
    const project = twoDesigns()
    expect(sheetOf(project).chosen).toMatchObject({ byEngineer: false, candidate: { id: CHOSEN } })
    project.review = { chosenId: 'cleaved-dry', reason: 'Nothing has to be spliced.' }
    const sheet = sheetOf(project)
    expect(sheet.chosen).toMatchObject({ byEngineer: true, candidate: { id: 'cleaved-dry' } })
    const said = sheet.sections.find(({ id }) => id === 'choice')?.blocks ?? []
    expect(said).toContainEqual({ kind: 'text', text: 'Nothing has to be spliced.' })
  })

  test('proposes no design that misses a requirement, though it loses less; a wish proposes nothing', () => {
    const project = twoDesigns()
    project.requirements.powerIn = quantityOf(20, 'mW')
    project.requirements.returnLossFibre = undefined
    askLoss(project, { limitDb: 40 })
    // The bonded stub alone has adhesive in its light.
    project.media.find(({ id }) => id === 'adhesive')!.irradianceLimit = quantityOf(1, 'W/cm^2')
    const missed = (id: string) =>
      checkRequirements(project, evaluateCandidate(project, id)).flatMap((each) =>
        each.status === 'not met' ? [each.id] : [],
      )
    expect([missed('cleaved-dry'), missed(CHOSEN)]).toEqual([[], ['irradiance']])
    expect(sheetOf(project).chosen).toMatchObject({ byEngineer: false, candidate: { id: 'cleaved-dry' } })
    project.requirements.wishes = ['irradiance']
    expect(sheetOf(project).chosen?.candidate.id).toBe(CHOSEN)
  })

  test('folds the waterfall of a budget of forty lines; the table has them all', () => {
    const { sections, chosen } = sheetOf(longProject())
    const waterfall = figuresOf(sections).find(({ id }) => id.startsWith('budget-'))
    expect(chosen?.candidate.lines.length).toBe(40)
    // Fifteen bars, the others as one, and the total.
    expect(waterfall?.table.rows.length).toBe(17)
    expect(tablesOf(sheetOf(longProject()), 'budget')[0]?.rows.length).toBeGreaterThan(40)
  })

  test('says for every other design what speaks against it: once, on the first page or in its own table', () => {
    const project = twoDesigns()
    const [comparison, ...more] = tablesOf(sheetOf(project), 'comparison')
    expect([comparison?.caption, more]).toEqual(['Comparison', []])
    expect(comparison?.rows[0]?.cells).toEqual(['Loss ≤ 2 dB, RSS', 'not met (6.39)', 'met'])
    const left = { ...project, review: { ...project.review, left: ['summary'] } }
    const [against] = tablesOf(sheetOf(left), 'comparison')
    expect(against?.rows[0]?.cells[0]).toBe('Cleaved fibre, dry')
    expect(against?.rows[0]?.cells[1]).toContain('Loss ≤ 2 dB, RSS: 6.39 dB;')
  })

  test('compares every requirement, also one that is not evaluated for any design, and leaves out what says nothing', () => {
    const project = twoDesigns()
    project.requirements.losses = [
      { id: 'loss', limit: quantityOf(2, 'dB'), basis: 'percentile', percentile: 99, channels: 'one' },
    ]
    for (const each of project.candidates) delete each.mount
    const [comparison] = tablesOf(sheetOf(project), 'comparison')
    expect(rowOf(comparison, 'compare-verdict-loss').slice(1)).toEqual(['not evaluated', 'not evaluated'])
    const said = comparison?.rows.map(({ mark }) => mark) ?? []
    for (const mark of ['compare-verdict-temperature', 'compare-medium', 'compare-polarisation'])
      expect(said).toContain(mark)
    expect(said.some((mark) => mark?.startsWith('compare-temperature'))).toBe(false)
  })

  test('lists a candidate that cannot be computed with the reason instead of leaving it out', () => {
    const project = twoDesigns()
    const first = project.candidates[0]!
    const broken = { ...project, candidates: [{ ...first, chain: first.chain.slice(0, 1) }] }
    const sheet = sheetOf(broken)
    expect(sheet.candidates).toEqual([])
    expect(sheet.refused[0]?.issues[0]?.message).toContain('needs at least a fibre, a joint and a facet')
    const mixed = {
      ...project,
      candidates: [...project.candidates, { ...broken.candidates[0]!, id: 'broken' }],
    }
    const [against] = tablesOf(sheetOf(mixed), 'comparison')
    expect(against?.rows.at(-1)?.cells[1]).toContain('Not evaluated: ')
  })

  test('asks about every loss that is only an estimate, and what somebody wrote down', () => {
    const project = twoDesigns()
    project.review = { openQuestions: ['Who aligns the second chip?'] }
    const questions = JSON.stringify(sheetOf(project).sections.find(({ id }) => id === 'questions'))
    expect(questions).toContain(
      'Splice, entered value: 0.10 dB is an estimate; confirm it (High-NA stub, bonded)',
    )
    expect(questions).toContain('Who aligns the second chip?')
  })

  test('answers for the percentile only with a run that it is given, and carries its seed and assumptions', () => {
    const project = askPercentile(twoDesigns())
    const verdictOf = (sheet: ReturnType<typeof sheetOf>) =>
      sheet.candidates[1]?.verdicts.find((each) => each.id === 'loss')
    expect(verdictOf(sheetOf(project))?.status).toBe('not known')
    const run = runYield(project, CHOSEN, { samples: 5000, seed: 77 })
    const sheet = sheetOf(project, { runs: { yields: new Map([[CHOSEN, run]]), arrays: new Map() } })
    expect(verdictOf(sheet)?.status).toBe(run.p95Db <= 2 ? 'met' : 'not met')
    expect(verdictOf(sheet)?.reason).toContain(`${run.p95Db.toFixed(2)} dB`)
    const said = JSON.stringify(sheet.sections.find(({ id }) => id === 'yield'))
    expect(said).toContain('seed 77, 5\u202f000 samples')
    expect(said).toContain('Actively aligned on power: offset x, offset y')
  })

  test('says what the candidate was computed from, with unit, tolerance and source', () => {
    const inputs = tablesOf(sheetOf(twoDesigns()), 'budget')[1]
    expect(inputs?.rows.find(({ cells }) => cells[0] === 'offset x')?.cells).toEqual([
      'offset x',
      { value: 0, text: '0' },
      'µm',
      '± 0.2 µm, normal',
      'estimate',
    ])
    const [conditions, asked] = tablesOf(sheetOf(twoDesigns()), 'job')
    expect(conditions?.rows[0]?.cells).toEqual(['Direction of light', 'fibre to chip'])
    expect(conditions?.rows[1]?.cells).toEqual(['Wavelength', '1653.7 nm'])
    expect(asked?.rows.map(({ cells }) => cells[0])).toContain('Loss over 1650.7 to 1656.7 nm')
  })

  test('carries yield, array, temperature and alignment tolerance at the joint as the core computes them', () => {
    const project = twoDesigns()
    const runs = demoRuns()
    const sheet = sheetOf(project, { runs })
    const run = runs.yields.get(CHOSEN)!
    const [yields] = tablesOf(sheet, 'yield')
    expect(rowOf(yields, 'yield').slice(2).map(numberOf)).toEqual([
      100 * run.yield,
      100 * run.yieldInterval.low,
      100 * run.yieldInterval.high,
    ])
    for (const { share, lossDb, lowDb, highDb } of run.percentiles) {
      expect(rowOf(yields, `percentile-${share}`).slice(2).map(numberOf)).toEqual([lossDb, lowDb, highDb])
    }
    const [aims] = tablesOf(sheet, 'array')
    for (const aim of runs.arrays.get(CHOSEN)!.aims) {
      expect(numberOf(rowOf(aims, `aim-${aim.aim}`)[1])).toBe(100 * aim.allChannelsYield)
    }
    const evaluation = evaluateCandidate(project, CHOSEN)
    const budget = tablesOf(sheet, 'budget')[0]
    expect(numberOf(rowOf(budget, 'total-Nominal, worst temperature')[1])).toBe(
      evaluation.temperature?.worstDb,
    )
    const [windows] = tablesOf(sheet, 'windows')
    for (const { axis, marks } of toleranceWindows(evaluation.joints[0]!.joint)) {
      const cells = rowOf(windows, `window-gap-${axis}`)
      const perCore = axis.endsWith('Rad') ? 180 / Math.PI : 1
      const sides = marks.flatMap(({ below, above }) => [
        below === null ? 'not reached' : -below * perCore,
        above === null ? 'not reached' : above * perCore,
      ])
      expect(cells.slice(2, 8).map((cell) => (typeof cell === 'string' ? cell : cell.value))).toEqual(sides)
    }
  })

  test('gives the slope of the loss in the unit of its axis, and names each limit of the worst case at its own end', () => {
    const project = twoDesigns()
    for (const { chain } of project.candidates)
      for (const element of chain)
        if (element.kind === 'gap')
          Object.assign(element, {
            offsetX: quantityOf(0.4, 'um', 'estimate', 0.3),
            tiltY: quantityOf(1, 'deg'),
          })
    const sheet = sheetOf(project)
    const { joints, worstCorner } = evaluateCandidate(project, sheet.chosen?.candidate.id ?? '')
    const [view] = joints
    if (view === undefined) throw new Error('no joint')
    const [windows] = tablesOf(sheet, 'windows')
    const lossAt = (axis: 'offsetXUm' | 'tiltYRad', by: number) => {
      const joint = seenJoint(view, axis)
      return jointLossDb({ ...joint, [axis]: joint[axis] + by })
    }
    for (const [axis, unit] of [
      ['offsetXUm', 1],
      ['tiltYRad', Math.PI / 180],
    ] as const) {
      const slope = (lossAt(axis, 0.01 * unit) - lossAt(axis, -0.01 * unit)) / 0.02
      expect(Math.abs(slope)).toBeGreaterThan(0.01)
      expect(numberOf(rowOf(windows, `window-${view.elementId}-${axis}`).at(-1))).toBeCloseTo(slope, 4)
    }
    const spread = sheet.sections.find(({ id }) => id === 'spread')
    const [upper = '', lower = ''] = ['upper', 'lower'].map(
      (end) => JSON.stringify(spread).match(new RegExp(`at the ${end} limit: ([^"]*)`))?.[1] ?? '',
    )
    expect(worstCorner.settings.length).toBeGreaterThan(3)
    for (const { label, sign } of worstCorner.settings) {
      expect(upper.includes(label), label).toBe(sign === 1)
      expect(lower.includes(label), label).toBe(sign === -1)
    }
  })

  test('says what fields make of a joint, and power of the light, where the project has them', () => {
    const project = withoutTolerances(twoDesigns())
    for (const fibre of project.fibres) fibre.modeShape = { kind: 'core' }
    project.requirements.powerIn = quantityOf(2, 'mW')
    const sheet = sheetOf(project)
    const { joints, power } = evaluateCandidate(project, CHOSEN)
    const loss = joints[0]?.field?.loss
    if (loss === undefined || 'refusal' in loss || power === null) throw new Error('neither fields nor power')
    const [fields] = tablesOf(sheet, 'fields')
    expect(fields?.rows[0]?.cells.slice(2, 5).map(numberOf)).toEqual([
      loss.gaussianDb,
      loss.fieldDb,
      loss.fieldDb - loss.gaussianDb,
    ])
    expect(fields?.rows[0]?.cells[0]).toBe('stub to facet')
    const [locations, shares] = tablesOf(sheet, 'power')
    expect(locations?.rows.map(({ cells }) => numberOf(cells[1]))).toEqual(
      power.locations.map(({ powerUw }) => powerUw / 1000),
    )
    const sum = shares?.rows.slice(0, -1).reduce((total, { cells }) => total + numberOf(cells[1]), 0)
    expect(sum).toBeCloseTo(2, 9)
    expect(numberOf(rowOf(shares, 'power-in')[1])).toBe(2)
  })

  test('has no sign before what rounds to nothing', () => {
    expect(documentCellText(percentCell(-0.0004, 0))).toBe('0')
    expect(documentCellText(percentCell(-0.006, 0))).toBe('−1')
    expect(documentCellText(fixedCell(-0.0004, 2))).toBe('0.00')
  })

  test('carries reflections, ripple and band as the core computes them', () => {
    const project = twoDesigns()
    project.review = { chosenId: 'cleaved-dry' }
    const sheet = sheetOf(project)
    const { reflections, returnLoss, ripples, polarisation } = evaluateCandidate(project, 'cleaved-dry')
    const [faces, gaps] = tablesOf(sheet, 'reflections')
    expect(faces?.rows.slice(0, -2).map(({ cells }) => numberOf(cells[4]))).toEqual(
      reflections.map(({ atFibreDb }) => atFibreDb),
    )
    expect(numberOf(rowOf(faces, 'return-loss')[4])).toBe(returnLoss.fibre.incoherentDb)
    expect(numberOf(rowOf(faces, 'return-loss-in-phase')[4])).toBe(returnLoss.fibre.coherentDb)
    expect(gaps?.rows[0]?.cells[0]).toBe('fibre to facet')
    expect(numberOf(gaps?.rows[0]?.cells[1])).toBe(ripples[0]?.peakToPeakDb)
    const found = spectrum(project, 'cleaved-dry')
    if (!found.ok) throw new Error('no spectrum')
    const [band, both] = tablesOf(sheet, 'spectrum')
    expect(numberOf(rowOf(band, 'band-worst')[1])).toBe(found.value.worstDb)
    expect(both?.rows.map(({ cells }) => numberOf(cells[1]))).toEqual([
      polarisation.teDb,
      polarisation.tmDb,
      polarisation.dependentLossDb,
    ])
  })

  test('names the version of the program as its package does', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string }
    expect(PROGRAM_VERSION).toBe(version)
    expect(sheetOf(twoDesigns()).head.programVersion).toBe(version)
  })
})
