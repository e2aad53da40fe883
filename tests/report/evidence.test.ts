import { describe, expect, test } from 'vitest'
import { type MeasurementResult, type Outcome, packNumbers } from '../../src/measure/index'
import type { Measurement } from '../../src/model/schema/measurement'
import { evidenceOf, measuredEvidence } from '../../src/report/evidence'
import { twoDesigns } from '../support/twoDesigns'
import { numberOf, sheetOf, tablesOf } from './support/sheets'

const repeated = (readings: readonly number[]): Measurement => ({
  id: 'm',
  name: 'Twelve facets',
  fileName: 'facets.txt',
  date: '2026-11-20',
  notes: [],
  method: 'repeated',
  unit: 'dB',
  values: packNumbers(Float64Array.from(readings)),
})

describe('measurement evidence', () => {
  // Mean and Student's t for 95.45 % with 3 degrees of freedom, 3.3068 (JCGM 100, table G.2, from memory: 3.31).
  test('of repeated readings is their mean with its expanded uncertainty', () => {
    const [evidence] = measuredEvidence([repeated([1.1, 1.2, 1.3, 1.4])])
    const row = evidence?.rows[0]
    expect(row?.value.value).toBeCloseTo(1.25, 12)
    const standard = Math.sqrt((0.15 ** 2 + 0.05 ** 2 + 0.05 ** 2 + 0.15 ** 2) / 3) / 2
    expect((row?.expanded?.value ?? 0) / standard).toBeCloseTo(3.31, 2)
  })

  test('is printed on the sheet with file and date, and says why there is none', () => {
    const project = twoDesigns()
    project.measurements = [repeated([1.1, 1.2, 1.3]), { ...repeated([1]), id: 'n', name: 'One only' }]
    const evidence = measuredEvidence(project.measurements)
    const [table] = tablesOf(sheetOf(project, { evidence }), 'evidence')
    expect(table?.rows[0]?.cells.slice(0, 4)).toEqual([
      'Twelve facets',
      'Repeated readings',
      'facets.txt, 2026-11-20',
      'Mean of 3 readings',
    ])
    expect(numberOf(table?.rows[0]?.cells[4])).toBeCloseTo(1.2, 12)
    expect(table?.rows[1]?.cells[3]).toContain('no result: ')
    expect(table?.rows[1]?.cells[3]).toContain('number of readings is 1; must be 2 or more')
  })
})

describe('each kind of result', () => {
  const linesOf = (result: object, mfds: readonly object[] = []) => {
    const outcome = {
      ok: true,
      value: { mfds, ...result },
    } as unknown as Outcome<MeasurementResult>
    return evidenceOf(repeated([1, 2]), outcome).rows.map(({ label, value, expanded, unit }) =>
      [label, value.text, expanded?.text ?? '', unit].join('; '),
    )
  }

  test('has its lines, each in its unit with its own uncertainty', () => {
    const loopback = {
      facetLossDb: { value: 1.5, plusMinus: 0.2 },
      propagationDbPerCm: { value: 0.7, plusMinus: 0.1 },
    }
    expect(linesOf({ method: 'loopback', result: loopback })).toEqual([
      'Loss per facet; 1.500; 0.200; dB',
      'Propagation loss; 0.700; 0.100; dB/cm',
    ])
    const readings = { mean: 3.2, expanded: 0.5, count: 4 }
    expect(linesOf({ method: 'repeated', unit: 'um', result: readings })).toEqual([
      'Mean of 4 readings; 3.200; 0.500; µm',
    ])
    expect(linesOf({ method: 'repeated', unit: 'dB', result: readings })).toEqual([
      'Mean of 4 readings; 3.200; 0.500; dB',
    ])
    const lot = {
      meanDb: 1.1,
      meanPlusMinusDb: 0.05,
      p95Db: 1.9,
      assemblies: [{}, {}, {}],
    }
    expect(linesOf({ method: 'lot', lot })).toEqual([
      'Mean loss of 3 assemblies; 1.100; 0.050; dB',
      'P95 of the losses; 1.900; ; dB',
    ])
    expect(linesOf({ method: 'far field' }, [{ label: 'x', valueUm: 9.2, expandedUm: null }])).toEqual([
      'MFD, x; 9.200; ; µm',
    ])
  })

  test('of a stress test is the change, if there are readings before it', () => {
    const stress = {
      meanChangeDb: 0.12,
      greatestChangeDb: 0.34,
      assemblies: 2,
      last: 500,
      unit: 'h',
    }
    expect(linesOf({ method: 'stress', stress })).toEqual([
      'Mean change of 2 assemblies after 500 h; 0.120; ; dB',
      'Greatest change; 0.340; ; dB',
    ])
    expect(linesOf({ method: 'stress', stress: { ...stress, assemblies: 1 } })[0]).toContain(
      'of 1 assembly after',
    )
    expect(linesOf({ method: 'stress', stress: { ...stress, meanChangeDb: null } })).toEqual([])
    expect(
      linesOf({
        method: 'stress',
        stress: { ...stress, greatestChangeDb: null },
      }),
    ).toEqual([])
  })

  // JCGM 100, 7.2.6: two significant digits of the uncertainty suffice.
  test.each([
    [0.5, '1.235 ± 0.500'],
    [0.01, '1.235 ± 0.010'],
    [0.0099, '1.2346 ± 0.0099'],
    [0.00042, '1.23457 ± 0.00042'],
    [1e-12, '1.234567890 ± 0.000000000'],
    [0, '1.235 ± 0.000'],
  ])('an uncertainty of %f shows two of its digits, and at least three decimals: %s', (plusMinus, text) => {
    const lot = {
      meanDb: 1.23456789,
      meanPlusMinusDb: plusMinus,
      p95Db: 1,
      assemblies: [],
    }
    const [line = ''] = linesOf({ method: 'lot', lot })
    expect(line.split('; ').slice(1, 3).join(' ± ')).toBe(text)
  })
})
