// What the app makes of one damaged measurement file: read, taken as the screens would take it, evaluated, kept.

import {
  attempted,
  evaluateMeasurement,
  neededFacts,
  newMeasurement,
  readMeasurement,
} from '../../src/measure/index'
import { demoProject } from '../../src/model/index'
import { readProject } from '../../src/model/project/parseProject'
import { type Quantity, quantityOf } from '../../src/model/quantity/quantity'
import type { RuleName } from '../../src/model/quantity/quantityRules'
import { evidenceOf } from '../../src/report/evidence'
import { nonFinitePaths, notANumberIn } from './nonFinite'
import type { Outcome } from './outcome'
import { wordedNumbers } from './worded'

/** A plausible answer where the file leaves a question open. */
const ANSWERS: Readonly<Partial<Record<RuleName, Quantity>>> = {
  wavelength: quantityOf(1550, 'nm'),
  mfd: quantityOf(4, 'um'),
  pixelPitch: quantityOf(0.1, 'um'),
  propagationLoss: quantityOf(0.3, 'dB/cm'),
  power: quantityOf(100, 'uW'),
}

const fault = (...faults: string[]): Outcome => ({ kind: 'fault', faults })

export async function fileTrial(bytes: Uint8Array, name: string): Promise<Outcome> {
  const outcome = attempted(() => readMeasurement(bytes, name))
  if (!outcome.ok) return outcome.message === '' ? fault('refused without a word') : { kind: 'refused' }
  const reading = outcome.value
  const shown = nonFinitePaths({ ...reading, refusedLines: [], notes: [], metadata: null })
  if (shown.length > 0) return fault(...shown.map((path) => `reading${path}`))
  const facts = Object.fromEntries(
    neededFacts(reading).map((fact) => [fact.name, fact.found ?? ANSWERS[fact.rule] ?? quantityOf(1, '1')]),
  )
  const measurement = newMeasurement(reading, facts, { id: 'mutant', fileName: name, date: '2026-11-25' })
  if (measurement === null) return { kind: 'refused' }
  const kept = readProject(JSON.parse(JSON.stringify({ ...demoProject(), measurements: [measurement] })))
  if (!kept.ok) return fault(`taken, but does not read back: ${kept.issues[0]?.message}`)
  const result = attempted(() => evaluateMeasurement(measurement))
  if (!result.ok) {
    const named = notANumberIn(result.message)
    return named === null ? { kind: 'refused' } : fault(`refused with ${result.message}`)
  }
  const worded = await wordedNumbers(() => evidenceOf(measurement, result))
  const wrong = [...nonFinitePaths(result.value), ...worded]
  return wrong.length === 0 ? { kind: 'finite' } : fault(...wrong.map((path) => `result${path}`))
}
