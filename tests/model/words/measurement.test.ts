import { describe, expect, test } from 'vitest'
import { packNumbers } from '../../../src/measure'
import { demoProject, parseProject, projectText, readProject } from '../../../src/model'
import { packedLength } from '../../../src/model/parts/packedLength'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { coreStandard } from '../../../src/model/quantity/standardUncertainty'
import type { Measurement } from '../../../src/model/schema/measurement'

const readings: Measurement = {
  id: 'measurement-1',
  name: 'Facet loss',
  fileName: 'loss.txt',
  date: '2026-03-14',
  notes: [],
  method: 'repeated',
  unit: 'dB',
  values: packNumbers(Float64Array.of(1.1, 1.2)),
}
const raw = (measurement: object) => ({
  ...JSON.parse(projectText(demoProject())),
  measurements: [measurement],
})
const faults = (measurement: object) => {
  const result = readProject(raw(measurement))
  return result.ok ? [] : result.issues.map((issue) => issue.message)
}

describe('measurements in a project file', () => {
  test('a file written before there was a bench opens with none', () => {
    const { measurements, ...old } = JSON.parse(projectText(demoProject()))
    expect(measurements).toEqual([])
    expect(parseProject(old).measurements).toEqual([])
  })

  test('come back as they were, unknown fields included', () => {
    const kept = { ...readings, operator: 'second shift' }
    expect(parseProject(raw(kept)).measurements).toEqual([kept])
  })

  test('with readings that are cut short, no base64, or a date of another form are refused at their path', () => {
    const packed = packNumbers(Float64Array.of(1.1, 1.2))
    expect(faults({ ...readings, values: { ...packed, count: 3 } })[0]).toMatch(
      /measurements\[0\]\.values\.base64 .*must be 32 for 3 numbers of type f8/,
    )
    expect(faults({ ...readings, values: { ...packed, base64: '?'.repeat(24) } })).toHaveLength(1)
    expect(faults({ ...readings, date: '14.3.2026' })[0]).toMatch(/measurements\[0\]\.date/)
    expect(faults({ ...readings, method: 'guess' })[0]).toMatch(/measurements\[0\]/)
  })

  test('with one id twice are refused', () => {
    const result = readProject({ ...raw(readings), measurements: [readings, readings] })
    expect(!result.ok && result.issues[0]?.message).toMatch(/measurements\[1\]\.id is "measurement-1"/)
  })

  test('know how much of the file they are', () => {
    expect(packedLength([readings, readings])).toBe(48) // 16 bytes are 24 characters of base64
  })
})

describe('a tolerance as standard uncertainty (JCGM 100:2008, 4.3.3, 4.3.7, 4.3.9)', () => {
  const of = (distribution: 'normal' | 'uniform' | 'triangular' | 'one-sided' | 'fixed', coverage?: number) =>
    coreStandard(
      quantityOf(1550, 'nm', 'data sheet', {
        plusMinus: 6,
        distribution,
        ...(coverage === undefined ? {} : { coverage }),
      }),
      'wavelength',
    )

  test('is the half width over 2, over the coverage stated, or over the root of 3, 6 or 12', () => {
    expect(of('normal')).toBeCloseTo(0.003, 12)
    expect(of('normal', 3)).toBeCloseTo(0.002, 12)
    expect(of('uniform')).toBeCloseTo(0.006 / Math.sqrt(3), 12)
    expect(of('triangular')).toBeCloseTo(0.006 / Math.sqrt(6), 12)
    expect(of('one-sided')).toBeCloseTo(0.006 / Math.sqrt(12), 12)
  })

  test('is zero where nothing is stated or the value is fixed', () => {
    expect(of('fixed')).toBe(0)
    expect(coreStandard(quantityOf(1550, 'nm'), 'wavelength')).toBe(0)
  })
})

describe('packed readings', () => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e300])(
    'of %d are refused by place and value',
    (value) => {
      const values = { ...packNumbers(Float64Array.of(1.1, value)) }
      expect(faults({ ...readings, values })[0]).toMatch(/number 2 of 2 is/)
    },
  )

  test('of columns and images are bounded too', () => {
    const column = {
      label: 'x',
      role: 'position',
      coreUnit: 'um',
      values: packNumbers(Float64Array.of(1, 2e200)),
    }
    const scan = { ...readings, method: 'loopback', columns: [column] }
    expect(faults(scan).join()).toContain('number 2 of 2 is 2e+200; must be −1000000000 to 1000000000')
  })
})
