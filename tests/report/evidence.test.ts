import { describe, expect, test } from 'vitest'
import { packNumbers } from '../../src/measure/index'
import type { Measurement } from '../../src/model/schema/measurement'
import { measuredEvidence } from '../../src/report/evidence'
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
