// The drift of a design in its budget: line, worst case and cautions.

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis'
import { serviceDrift } from '../../../src/analysis/lifetime/serviceDrift'
import { newMeasurement, readMeasurement } from '../../../src/measure'
import { demoProject, parseProject, projectText } from '../../../src/model'
import { stressTest } from '../../../src/model/measurements/stressSeries'
import type { Lifetime } from '../../../src/model/schema/build/lifetime'

const HOURS = [0, 250, 500, 1000, 2000]
/** Loss of four assemblies that rises with the square root of the hours, ± 5 % of the rate between them. */
const TABLE = [
  'Serial;Time [h];Insertion loss [dB]',
  ...[0.95, 1, 1.05, 1].flatMap((rate, i) =>
    HOURS.map(
      (t) =>
        `S${i};${t};${String((0.7 + 0.1 * i + 0.004 * rate * Math.sqrt(t)).toFixed(5)).replace('.', ',')}`,
    ),
  ),
].join('\n')

function aged(lifetime: Partial<Lifetime> = {}, table = TABLE) {
  const reading = readMeasurement(new TextEncoder().encode(table), 'aging.csv')
  const measurement = newMeasurement(reading, {}, { id: 'm1', fileName: 'aging.csv', date: '2026-03-14' })
  if (measurement?.method !== 'stress') throw new Error('not read as a stress test')
  const demo = demoProject()
  const [first, ...others] = demo.candidates
  const own = { ...first!, lifetime: { measurementId: 'm1', law: 'square root' as const, ...lifetime } }
  const project = { ...demo, candidates: [own, ...others], measurements: [measurement] }
  // Through a file and back.
  return {
    project: parseProject(JSON.parse(projectText(project))),
    id: own.id,
    before: evaluateCandidate(demo, own.id),
  }
}

test('a table with hours is a stress test, and its drift a line of the budget with an interval that the worst case has', () => {
  const { project, id, before } = aged({ serviceYears: 2000 / 8766 })
  const evaluation = evaluateCandidate(project, id)
  const line = evaluation.lines.find(({ kind }) => kind === 'drift')
  const truth = 0.004 * Math.sqrt(2000)
  expect(line?.lossDb).toBeCloseTo(truth, 4)
  expect(evaluation.nominalDb).toBeCloseTo(before.nominalDb + truth, 4)
  // Rates differ with a standard deviation of 4.0825 %, t(3) = 3.18245: half width for one more of four.
  const half = 3.18245 * 0.040825 * Math.sqrt(1 + 1 / 4) * truth
  expect(evaluation.worstCorner.lossDb).toBeCloseTo(before.worstCorner.lossDb + truth + half, 3)
  expect(evaluation.validity.filter(({ message }) => message.startsWith('Drift'))).toEqual([])
})

test('readings before the stress, at 0 h, are the start of every series', () => {
  const { project } = aged()
  const [measurement] = project.measurements
  if (measurement?.method !== 'stress') throw new Error('no stress test')
  const { series, firstStep, last } = stressTest(measurement.rows)
  expect(series.map(({ exposure }) => [...exposure])).toEqual([HOURS, HOURS, HOURS, HOURS])
  expect([firstStep, last]).toEqual([250, 2000])
})

test('beyond the last reading there is a caution with the ratio and with what the other laws give', () => {
  const { project, id } = aged({ serviceYears: 20 })
  const drift = serviceDrift(project, project.candidates.find((each) => each.id === id)!)
  if (!drift?.ok) throw new Error('no drift')
  expect(drift.value.meanDb).toBeCloseTo(0.004 * Math.sqrt(20 * 8766), 3)
  expect(drift.value.beyond).toBeCloseTo((20 * 8766) / 2000, 9)
  const said = evaluateCandidate(project, id)
    .validity.filter(({ caution }) => caution)
    .map(({ message }) => message)
  const ours = said.find((message) => message.includes('Extrapolated by the square-root law'))
  expect(ours).toMatch(
    /88 times the 2.000 h measured. The other laws give: linear law \d+\.\d\d dB, logarithmic law 0\.\d\d dB/,
  )
})

test('an activation energy brings service into the range of the test, and no caution is left', () => {
  // 20 years at 25 °C by 0.7 eV from 85 °C: exp(0.7 / 8.617333e-5 (1 / 298.15 - 1 / 358.15)) = 96.0 (by hand).
  const { project, id } = aged({
    serviceYears: 20,
    arrhenius: { activationEnergyEv: 0.7, testC: 85, serviceC: 25 },
  })
  const drift = serviceDrift(project, project.candidates.find((each) => each.id === id)!)
  if (!drift?.ok) throw new Error('no drift')
  expect(drift.value.acceleration).toBeCloseTo(96, 0)
  expect(drift.value.exposure).toBeCloseTo((20 * 8766) / drift.value.acceleration, 6)
  expect(drift.value.warnings).toEqual([])
})

test('a law that fits worse says so; service hotter than the test says so; a deleted test leaves a caution and no line', () => {
  const warned = (lifetime: Partial<Lifetime>) => {
    const { project, id } = aged(lifetime)
    const drift = serviceDrift(project, project.candidates.find((each) => each.id === id)!)
    return drift?.ok ? drift.value.warnings.join('\n') : ''
  }
  expect(warned({ law: 'linear', serviceYears: 0.1 })).toContain(
    'The square-root law fits these readings better',
  )
  const hot = { activationEnergyEv: 0.7, testC: 70, serviceC: 85 }
  expect(warned({ serviceYears: 0.01, arrhenius: hot })).toContain(
    'Service at 85 °C is hotter than the test at 70 °C',
  )
  const { project, id } = aged()
  const evaluation = evaluateCandidate({ ...project, measurements: [] }, id)
  expect(evaluation.lines.map(({ kind }) => kind)).not.toContain('drift')
  expect(evaluation.validity.map(({ message }) => message).join()).toContain('deleted from the project')
})

/** What the drift of a table says, through a file and back. */
function driftOf(lifetime: Partial<Lifetime>, table: string) {
  const { project, id } = aged(lifetime, table)
  const drift = serviceDrift(project, project.candidates.find((each) => each.id === id)!)
  if (!drift?.ok) throw new Error('no drift')
  return drift.value
}

const tableOf = (unit: string, serials: number, loss: (exposure: number, serial: number) => number) =>
  [
    `Serial,${unit},Insertion loss [dB]`,
    ...Array.from({ length: serials }, (_, i) =>
      [0, 100, 200, 400].map((at) => `S${i},${at},${loss(at, i).toFixed(6)}`),
    ).flat(),
  ].join('\n')

test('cycles are accelerated by their swings: half the swing to the power of two makes a quarter of them', () => {
  const table = tableOf('Cycles', 3, (n, i) => 0.5 + 0.1 * i + 0.001 * n)
  const coffinManson = { exponent: 2, testSwingC: 100, serviceSwingC: 50 }
  const drift = driftOf({ law: 'linear', serviceCycles: 1200, coffinManson }, table)
  expect(drift.test.unit).toBe('cycles')
  expect(drift.service).toBe(1200)
  expect(drift.acceleration).toBe(4)
  expect(drift.exposure).toBe(300)
  expect(drift.beyond).toBeCloseTo(0.75, 12)
  expect(drift.meanDb).toBeCloseTo(0.3, 5)
  expect(drift.warnings).toEqual([])
  const wider = { ...coffinManson, serviceSwingC: 110 }
  expect(driftOf({ law: 'linear', serviceCycles: 10, coffinManson: wider }, table).warnings.join()).toContain(
    'The swing in service, 110 °C, is larger than the 100 °C of the test',
  )
  // As many cycles as were tested are not beyond the test.
  expect(driftOf({ law: 'linear', serviceCycles: 400 }, table).warnings).toEqual([])
  expect(driftOf({ law: 'linear', serviceCycles: 401 }, table).warnings.join()).toContain('Extrapolated')
})

test('a loss that falls is said and not credited; a single assembly says that others may differ', () => {
  const falling = driftOf(
    { law: 'linear', serviceCycles: 200 },
    tableOf('Cycles', 3, (n, i) => 1 + 0.1 * i - 0.001 * n),
  )
  expect(falling.meanDb).toBeCloseTo(-0.2, 5)
  expect(falling.warnings.join()).toContain('The mean loss falls by 0.20 dB')
  const { project, id, before } = aged(
    { law: 'linear', serviceCycles: 200 },
    tableOf('Cycles', 3, (n, i) => 1 + 0.1 * i - 0.001 * n),
  )
  expect(evaluateCandidate(project, id).nominalDb).toBeCloseTo(before.nominalDb, 9)
  const alone = driftOf(
    { law: 'linear', serviceCycles: 200 },
    tableOf('Cycles', 1, (n) => 1 + 0.001 * n),
  )
  expect(alone.warnings.join()).toContain('Only one assembly was tested')
})
