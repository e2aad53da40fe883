import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis'
import { lossCauses } from '../../src/analysis/budget/lossCauses'
import { runMeasureJob } from '../../src/jobs/measureClient'
import type { ExplainInput } from '../../src/jobs/measureJobs'
import { demoProject } from '../../src/model'

const signal = () => new AbortController().signal

describe('a job where there is no worker', () => {
  test('runs here, and refuses a bad file as an outcome', async () => {
    const blob = new Blob(['position um,power uW\n1,2\n2,3\n'])
    const read = await runMeasureJob('read', { blob, fileName: 'a.csv', answers: {} }, { signal: signal() })
    expect(read).toMatchObject({ ok: true, value: { kind: 'table', scanKind: 'offset', rowsRead: 2 } })
    const empty = await runMeasureJob(
      'read',
      { blob: new Blob([]), fileName: 'a.csv', answers: {} },
      { signal: signal() },
    )
    expect(empty).toMatchObject({ ok: false, message: expect.stringContaining('a.csv is "empty"') })
  })

  test('does not start once it is cancelled', async () => {
    const cancelled = new AbortController()
    cancelled.abort()
    const blob = new Blob(['1,2\n'])
    await expect(
      runMeasureJob('read', { blob, fileName: 'a.csv', answers: {} }, { signal: cancelled.signal }),
    ).rejects.toThrow(/abort/i)
  })
})

describe('a measured loss curve against the path of the demo', () => {
  const project = demoProject()
  const causes = lossCauses(project, 'cleaved-dry')
  if (!causes.ok) throw new Error('the demo does not compile')
  const { lossesDb } = causes.value
  const positionsUm = [-3, -2, -1, 0, 1, 2, 3]
  const explain = async (change: Readonly<Record<string, number>>, input: Partial<ExplainInput> = {}) => {
    const measuredDb = [...lossesDb(change, 'x', positionsUm)]
    const output = await runMeasureJob(
      'explain',
      {
        project,
        candidateId: 'cleaved-dry',
        axis: 'x',
        positionsUm,
        measuredDb,
        standardDb: positionsUm.map(() => 0.02),
        shapeOnly: false,
        without: [],
        ...input,
      },
      { signal: signal() },
    )
    if (!output.ok) throw new Error(output.message)
    return output.value
  }

  test('the path at its nominal values gives the budget of the design', () => {
    const [nominal] = lossesDb({}, 'x', [0])
    expect(nominal).toBeCloseTo(evaluateCandidate(project, 'cleaved-dry').nominalDb, 9)
    const moved = structuredClone(project)
    const gap = moved.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.offsetX.value = 1.5
    expect(lossesDb({}, 'x', [1.5])[0]).toBeCloseTo(evaluateCandidate(moved, 'cleaved-dry').nominalDb, 9)
  })

  test('its own prediction is no difference', async () => {
    expect((await explain({})).result.verdict).toBe('no difference')
  })

  test('a shifted curve is an offset, with the true value inside the interval', async () => {
    const { result } = await explain({ 'offset x': 0.4 })
    expect(result.verdict).toBe('offset x')
    expect(result.single[0]?.interval?.[0]).toBeLessThan(0.4)
    expect(result.single[0]?.interval?.[1]).toBeGreaterThan(0.4)
  })

  test('a single loss that is too large does not separate causes', async () => {
    const nominal = evaluateCandidate(project, 'cleaved-dry').nominalDb
    const { result } = await explain(
      {},
      { positionsUm: [0], measuredDb: [nominal + 0.1], standardDb: [0.02] },
    )
    expect(result.verdict).toBe('not distinguishable')
  })

  test('where only the shape is known both curves are relative to their minimum', async () => {
    const lifted = [...lossesDb({}, 'x', positionsUm)].map((loss) => loss + 5)
    const lowest = Math.min(...lifted)
    const { result, predictedDb } = await explain(
      {},
      { measuredDb: lifted.map((loss) => loss - lowest), shapeOnly: true, without: ['offsetX'] },
    )
    expect(result.verdict).toBe('no difference')
    expect(Math.min(...predictedDb)).toBe(0)
    expect(result.single.map((each) => each.id)).not.toContain('offset x')
  })

  test('an offset that the stage does not know is no cause at the last joint of several', async () => {
    const at = { candidateId: 'ssc-chip', positionsUm: [0], measuredDb: [2], standardDb: [0.05] }
    const idsOf = async (without: readonly string[]) =>
      (await explain({}, { ...at, without })).result.single.map((each) => each.id)
    expect(await idsOf([])).toContain('offset x, joint 2')
    expect((await idsOf(['offsetX'])).filter((id) => id.startsWith('offset x'))).toEqual([])
  })

  test('quantities without a tolerance are held and named', () => {
    const without = structuredClone(project)
    const gap = without.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') gap.tiltX.tolerance = undefined
    const held = lossCauses(without, 'cleaved-dry')
    expect(held.ok && held.value.held).toEqual(['tilt x'])
    expect(held.ok && held.value.causes.map((cause) => cause.id)).not.toContain('tilt x')
  })

  test('a candidate that is not there is an outcome, not a crash', async () => {
    await expect(explain({}, { candidateId: 'none' })).rejects.toThrow(/design is "none"/)
  })
})
