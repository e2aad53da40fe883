// What the bench takes, a project can read back: files that were once taken and then refused at the next start.

import { encode as encodePng } from 'fast-png'
import { describe, expect, test } from 'vitest'
import { type Facts, neededFacts, newMeasurement, readMeasurement } from '../../../src/measure'
import { emptyProject, parseProject, projectText } from '../../../src/model'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { READING_LIMITS } from '../../../src/model/words/limits'
import { unpackNumbers } from '../../../src/numerics/compactNumbers'
import { ODD_FILES } from '../support/oddFiles'

const ANSWERS: Facts = {
  wavelength: quantityOf(1550, 'nm'),
  probeMfd: quantityOf(4, 'um'),
  pixelPitch: quantityOf(0.2, 'um'),
}
const origin = { id: 'measurement-1', date: '2026-03-14' }

describe.each(ODD_FILES)('$name', ({ name, bytes, asks, refused }) => {
  const reading = readMeasurement(bytes(), name)
  const needed = neededFacts(reading)
  const errors = reading.findings.filter((finding) => finding.severity === 'error')

  test(refused === null ? 'can be taken' : 'is refused with the reason', () => {
    if (refused === null) expect(errors).toEqual([])
    else expect(errors.map((error) => error.message).join()).toMatch(refused)
  })

  test(asks === null ? 'leaves no doubt about what it states' : 'is asked what it states wrongly', () => {
    const breaches = needed.flatMap(({ breach }) => (breach === null ? [] : [breach]))
    if (asks === null) expect(breaches).toEqual([])
    else {
      expect(breaches.join()).toMatch(asks)
      expect(needed.find(({ breach }) => breach !== null)?.found).toBeNull()
    }
  })

  test.runIf(refused === null)('is in the project what it was when it was taken', () => {
    const found = needed.flatMap((fact) => (fact.found === null ? [] : [[fact.name, fact.found]]))
    const facts = { ...ANSWERS, ...Object.fromEntries(found) }
    const measurement = newMeasurement(reading, facts, { ...origin, fileName: name })
    expect(measurement).not.toBeNull()
    const project = { ...emptyProject(), measurements: [measurement!] }
    expect(parseProject(JSON.parse(projectText(project)))).toEqual(project)
  })
})

test('of a name that is too long the beginning and the ending are kept', () => {
  const long = ODD_FILES.find(({ name }) => name.length > READING_LIMITS.fileNameCharacters)!
  const reading = readMeasurement(long.bytes(), long.name)
  const kept = newMeasurement(reading, ANSWERS, { ...origin, fileName: long.name })
  expect(kept?.fileName).toHaveLength(READING_LIMITS.fileNameCharacters)
  expect(kept?.fileName).toMatch(/^run 17 of the second station.*….*scan 0042\.csv$/)
})

test('fractions of counts lose no more than their eighth digit, whole counts nothing', () => {
  const data = Uint8Array.of(10, 11, 11, 200, 201, 203, 0, 0, 0, 255, 255, 255)
  const colours = Uint8Array.from({ length: 3 * 64 }, (_, i) => data[i % 12] ?? 0)
  const reading = readMeasurement(
    encodePng({ width: 8, height: 8, data: colours, channels: 3, depth: 8 }),
    'colour.png',
  )
  if (reading.kind !== 'image') throw new Error('not read as an image')
  const pixels = unpackNumbers(reading.kept.pixels)
  expect(reading.kept.pixels.type).toBe('f4')
  for (const [at, mean] of [32 / 3, 604 / 3, 0, 255].entries()) {
    expect(Math.abs((pixels[at] ?? 0) - mean)).toBeLessThanOrEqual(mean * 2 ** -24) // half a unit in the last place
  }
})

test('comments beyond what is kept are counted', () => {
  const lines = Array.from({ length: 250 }, (_, i) => `# remark ${i}`)
  const text = `${lines.join('\n')}\n# ${'x'.repeat(3000)}\nposition um,power uW\n0,1\n1,5\n2,9\n3,5\n4,1\n`
  const reading = readMeasurement(new TextEncoder().encode(text), 'remarks.csv')
  const kept = newMeasurement(reading, ANSWERS, { ...origin, fileName: 'remarks.csv' })
  expect(kept?.notes).toHaveLength(READING_LIMITS.notes)
  expect(kept?.notes.at(-1)).toBe('52 more comment lines of the file are not kept.')
})
