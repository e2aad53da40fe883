import { describe, expect, test } from 'vitest'
import { demoProject, parseProject, projectText } from '../../../src/model/index'

/** A file as version 1 wrote it: one limit, its figure and percentile, one return loss. */
function version1(asked: Record<string, unknown>): Record<string, unknown> {
  const file = JSON.parse(projectText(demoProject()))
  const { losses, direction: _, returnLossFibre, ...rest } = file.requirements
  const requirements = {
    ...rest,
    lossLimit: losses[0].limit,
    lossBasis: 'root sum square',
    lossPercentile: 95,
    returnLoss: returnLossFibre,
    ...asked,
  }
  return { ...file, version: 1, requirements }
}

describe('a file of version 1', () => {
  test('opens with its limit as the one loss criterion, light towards the chip, return loss towards the fibre', () => {
    const { version, requirements } = parseProject(version1({}))
    expect(version).toBe(2)
    expect(requirements.direction).toBe('fibre to chip')
    expect(requirements.losses).toMatchObject([
      { id: 'loss', limit: { value: 2, unit: 'dB' }, basis: 'RSS', percentile: 95, channels: 'one' },
    ])
    expect(requirements.returnLossFibre?.value).toBe(40)
    expect(requirements.returnLossChip).toBeUndefined()
    expect(
      Object.keys(requirements).filter((key) => /^loss(Limit|Basis|Percentile)$|^returnLoss$/.test(key)),
    ).toEqual([])
  })

  test('keeps asking a percentile of one channel and of all of them', () => {
    const { losses } = parseProject(version1({ lossBasis: 'percentile', lossPercentile: 99 })).requirements
    expect(losses.map(({ id, percentile, channels }) => [id, percentile, channels])).toEqual([
      ['loss', 99, 'one'],
      ['all-channels', 99, 'all'],
    ])
    const one = parseProject(version1({ lossBasis: 'percentile', channels: 1 })).requirements.losses
    expect(one.map(({ channels }) => channels)).toEqual(['one'])
  })

  test('keeps the uncertainty of an applied measurement beside a tolerance that it does not know', () => {
    const file = version1({})
    const [facet] = file.facets as Record<string, unknown>[]
    const tolerance = { plusMinus: 0.0076, distribution: 'normal', coverage: 2 }
    const note = 'offset scan; scan.csv, 2026-03-14; U = 0.0076 um (k = 2)'
    if (facet !== undefined) facet.mfdX = { value: 3.41, unit: 'um', provenance: 'measured', tolerance, note }
    const [opened] = parseProject(file).facets
    expect(opened?.mfdX.tolerance).toBeUndefined()
    expect(opened?.mfdX.uncertainty).toEqual({ plusMinus: 0.0076, coverage: 2 })
    // Expanded uncertainties were stated for k = 2, also where the file did not repeat it.
    const bare = { plusMinus: 0.0076, distribution: 'normal' }
    if (facet !== undefined)
      facet.mfdX = { value: 3.41, unit: 'um', provenance: 'measured', tolerance: bare, note }
    expect(parseProject(file).facets[0]?.mfdX.uncertainty).toEqual({ plusMinus: 0.0076, coverage: 2 })
    // A tolerance that was entered is one.
    if (facet !== undefined) facet.mfdX = { value: 3.41, unit: 'um', provenance: 'measured', tolerance }
    expect(parseProject(file).facets[0]?.mfdX.tolerance).toEqual(tolerance)
  })

  test('is lifted with the states that it keeps, and its faults are named in the words of today', () => {
    const design = version1({ lossBasis: 'worst corner' })
    const file = { ...version1({}), revisions: [{ id: 'a', name: 'A', date: '2026-01-02', design }] }
    expect(parseProject(file).revisions?.[0]?.design.requirements.losses[0]?.basis).toBe('worst case')
    expect(() => parseProject(version1({ lossLimit: undefined }))).toThrow('losses')
  })
})
