import { describe, expect, test } from 'vitest'
import { type Verdict, verdict } from '../../../src/analysis/results/verdict'
import { groupedVerdicts, musts } from '../../../src/analysis/verdicts/verdictGroups'
import {
  addAlternative,
  alternativesOf,
  forgetRequirement,
  setWish,
} from '../../../src/model/project/requirementGroups'

const isolator = verdict('isolator', 'Isolator', 'not met', 'no room')
const per = verdict('extinction', 'PER ≥ 20 dB', 'met', '23.1 dB')
const loss = verdict('loss', 'Loss ≤ 1.5 dB', 'met', '1.2 dB')
const unknown: Verdict = { ...per, status: 'not known', needs: 'yield' }
const either = { eitherOr: [['isolator', 'extinction']] }

describe('an either-or group', () => {
  test('is one verdict at the place of its first member, met where one of them is, by the reason of that one', () => {
    const found = groupedVerdicts(either, [loss, isolator, per])
    expect(found.map(({ id }) => id)).toEqual(['loss', 'either-1'])
    expect(found[1]).toMatchObject({
      label: 'Isolator or PER ≥ 20 dB',
      status: 'met',
      reason: 'PER ≥ 20 dB: 23.1 dB',
      alternatives: [isolator, per],
    })
  })

  test('is not known as long as one may still be met, and not met where none is, by all reasons', () => {
    expect(groupedVerdicts(either, [isolator, unknown])[0]).toMatchObject({
      status: 'not known',
      needs: 'yield',
    })
    const failed = groupedVerdicts(either, [isolator, { ...per, status: 'not met', reason: '9 dB' }])[0]
    expect(failed).toMatchObject({ status: 'not met', reason: 'Isolator: no room; PER ≥ 20 dB: 9 dB' })
  })

  test('of which only one is stated is that one alone', () => {
    expect(groupedVerdicts(either, [loss, per])).toEqual([loss, per])
  })
})

describe('a wish', () => {
  test('is marked and does not decide; a group of wishes is one', () => {
    const found = groupedVerdicts({ wishes: ['isolator'] }, [loss, isolator])
    expect(musts(found)).toEqual([loss])
    const all = groupedVerdicts({ ...either, wishes: ['isolator', 'extinction'] }, [isolator, per])
    expect(musts(all)).toEqual([])
    expect(musts(groupedVerdicts({ ...either, wishes: ['isolator'] }, [isolator, per]))).toHaveLength(1)
  })
})

describe('editing groups', () => {
  test('joins, moves and removes; no group of one remains', () => {
    const own: { wishes?: string[] | undefined; eitherOr?: string[][] | undefined } = {}
    addAlternative(own, 'extinction', 'isolator')
    addAlternative(own, 'pdl', 'isolator')
    expect(alternativesOf(own, 'isolator')).toEqual(['extinction', 'pdl'])
    addAlternative(own, 'pdl', 'loss')
    expect(own.eitherOr).toEqual([
      ['isolator', 'extinction'],
      ['loss', 'pdl'],
    ])
    setWish(own, 'pdl', true)
    forgetRequirement(own, 'pdl')
    expect(own).toEqual({ wishes: [], eitherOr: [['isolator', 'extinction']] })
  })
})
