import { describe, expect, test } from 'vitest'
import { dateOrder, dayOf } from '../../../src/measure/reading/lotDates'
import type { Doubt } from '../../../src/measure/reading/scan'

/** Days by the clock of the language, which counts from 1970 as well. */
const day = (iso: string) => Date.parse(iso) / 86_400_000

describe('the day of a date', () => {
  test.each([
    ['2026-03-14', false, '2026-03-14T00:00:00Z'],
    ['2026/03/14', true, '2026-03-14T00:00:00Z'],
    ['14.03.2026 12:33', false, '2026-03-14T12:33:00Z'],
    ['3/14/2026', true, '2026-03-14T00:00:00Z'],
    ['4/3/26', false, '2026-03-04T00:00:00Z'],
    ['4/3/26', true, '2026-04-03T00:00:00Z'],
    ['2026-12-31T23:59:58.25Z', false, '2026-12-31T23:59:58Z'],
    ['1/12/1999', false, '1999-12-01T00:00:00Z'],
    ['31.1.2026', false, '2026-01-31T00:00:00Z'],
  ])('%s, month first: %s', (cell, monthFirst, iso) => {
    expect(dayOf(cell, monthFirst)).toBeCloseTo(day(iso), 9)
  })

  test.each(['14.3', '2026-13-01', '2026-00-01', '32.1.2026', '0.1.2026', '2026-03/14', 'March'])(
    'is none for %s',
    (cell) => {
      expect(dayOf(cell, false)).toBeNaN()
    },
  )
})

describe('whether the month comes first', () => {
  const orderOf = (cells: readonly string[], answer?: string) => {
    const doubts: Doubt[] = []
    const monthFirst = dateOrder(cells, answer === undefined ? {} : { 'date-order': answer }, doubts)
    return { monthFirst, doubts }
  }

  test('is known from a number above 12 in any of the dates', () => {
    expect(orderOf(['1/2/2026', '13/2/2026'])).toEqual({ monthFirst: false, doubts: [] })
    expect(orderOf(['1/2/2026', '2/13/2026'])).toEqual({ monthFirst: true, doubts: [] })
    expect(orderOf(['2026-02-01'])).toEqual({ monthFirst: false, doubts: [] })
  })

  test('is asked otherwise, slashes taken for month first, and the answer counts', () => {
    const slashes = orderOf(['12/12/2026'])
    expect(slashes.monthFirst).toBe(true)
    expect(slashes.doubts).toEqual([
      {
        id: 'date-order',
        question: 'Is "12/12/2026" written with the day or the month first?',
        assumed: 'month first',
        alternatives: ['day first'],
      },
    ])
    expect(orderOf(['1.2.2026']).monthFirst).toBe(false)
    expect(orderOf(['1.2.2026'], 'month first').monthFirst).toBe(true)
    expect(orderOf(['1/2/2026'], 'day first').monthFirst).toBe(false)
  })
})
