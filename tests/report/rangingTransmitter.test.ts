// A whole job: a ranging transmitter, light from chip to fibre, 8 channels. Requirements as an engineer states them, a design of
// every family, one that meets them or the honest reason that none does, the order list and the review. All numbers are invented.

import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate, runYield } from '../../src/analysis/index'
import { defaultBrief } from '../../src/analysis/proposals/brief'
import { proposeSteps } from '../../src/analysis/proposals/proposeProject'
import { musts } from '../../src/analysis/verdicts/verdictGroups'
import { parseProject } from '../../src/model/index'
import { statedRequirements } from '../../src/model/project/statedRequirements'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { finish } from '../../src/numerics/steps'
import { orderList } from '../../src/report/orderList'
import { sheetOf, tablesOf } from './support/sheets'

const LIMIT_DB = 1.5

function job(): Project {
  const { project } = finish(
    proposeSteps({
      ...defaultBrief(),
      name: 'Ranging transmitter',
      fibreId: 'fibre-core-pm',
      fibreMfd: quantityOf(10.1, 'um', 'data sheet'),
      mfdX: quantityOf(4.2, 'um', 'data sheet', 0.3),
      mfdY: quantityOf(3.1, 'um', 'data sheet', 0.3),
      lossLimit: quantityOf(LIMIT_DB, 'dB'),
      channels: 8,
      pitch: quantityOf(250, 'um'),
      direction: 'chip to fibre',
    }),
  )
  const limit = () => quantityOf(LIMIT_DB, 'dB')
  const requirements: Project['requirements'] = {
    ...project.requirements,
    losses: [
      { id: 'loss', limit: limit(), basis: 'percentile', percentile: 99, channels: 'one' },
      { id: 'loss-2', limit: limit(), basis: 'worst case', percentile: 99, channels: 'one' },
    ],
    returnLossFibre: quantityOf(45, 'dB'),
    returnLossChip: quantityOf(45, 'dB'),
    isolator: { length: quantityOf(3, 'mm'), aperture: quantityOf(1, 'mm') },
    extinctionRatio: quantityOf(20, 'dB'),
    eitherOr: [['isolator', 'extinction']],
    temperatureMin: quantityOf(0, 'degC'),
    temperatureMax: quantityOf(70, 'degC'),
    station: { ...project.requirements.station, lateral: quantityOf(0.3, 'um') },
  }
  return parseProject(JSON.parse(JSON.stringify({ ...project, requirements })))
}

describe('the ranging transmitter', () => {
  const project = job()
  const judged = project.candidates.map(({ id, name }) => {
    const evaluation = evaluateCandidate(project, id)
    const run = runYield(project, id, { samples: 2000, seed: 1, rankingPoints: null })
    return { id, name, evaluation, run, verdicts: checkRequirements(project, evaluation, run) }
  })

  test('is asked for as it was stated', () => {
    expect(project.fibres.map(({ name }) => name)).toContain('PM fibre, entered MFD')
    expect(statedRequirements(project.requirements).map(({ label }) => label)).toEqual(
      expect.arrayContaining([
        'Loss ≤ 1.5 dB, P99, one channel',
        'Loss ≤ 1.5 dB, worst case',
        'Return loss towards the fibre ≥ 45 dB',
        'Return loss towards the chip ≥ 45 dB',
        'Isolator 3 mm long, aperture 1 mm',
        'PER ≥ 20 dB',
        '8 channels at 250 µm',
        'Loss at 0 to 70 °C',
      ]),
    )
  })

  test('has six designs or more, and each meets everything or names a requirement that it does not, with the numbers', () => {
    expect(judged.length).toBeGreaterThanOrEqual(6)
    for (const { name, evaluation, run, verdicts } of judged) {
      const open = musts(verdicts).filter(({ status }) => status !== 'met')
      for (const { label, reason } of open) expect(reason.length, `${name}: ${label}`).toBeGreaterThan(10)
      const worst = verdicts.find(({ id }) => id === 'loss-2')
      expect(worst?.status, name).toBe(evaluation.worstCorner.lossDb <= LIMIT_DB ? 'met' : 'not met')
      expect(verdicts.find(({ id }) => id === 'loss')?.status, name).toBe(
        run.p99Db <= LIMIT_DB ? 'met' : 'not met',
      )
      // A verdict on the loss must not contradict the worst case where it covers every assembly sampled within its tolerances.
      expect(evaluation.worstCorner.lossDb, name).toBeGreaterThanOrEqual(
        evaluation.rootSumSquare.lossDb - 1e-9,
      )
    }
  })

  test('has one verdict for "isolator or extinction ratio"; no key angle is taken for granted', () => {
    for (const { name, verdicts } of judged) {
      const either = verdicts.find(({ id }) => id === 'either-1')
      expect(either?.alternatives?.map(({ id }) => id).toSorted(), name).toEqual(['extinction', 'isolator'])
      expect(either?.status, name).not.toBe('met')
    }
    const relay = judged.find(({ evaluation }) => evaluation.relays.length > 0)
    expect(relay?.verdicts.find(({ id }) => id === 'either-1')?.reason).toMatch(
      /key angle not known|isolator/i,
    )
  })

  test('meets the isolator once a relay holds the one that is asked for', () => {
    const own = structuredClone(project)
    const candidate = own.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'relay'))
    const relay = candidate?.chain.find((each) => each.kind === 'relay')
    if (candidate === undefined || relay?.kind !== 'relay') throw new Error('no relay')
    relay.device = {
      name: 'Isolator',
      loss: quantityOf(0.3, 'dB'),
      length: quantityOf(3, 'mm'),
      index: quantityOf(2, '1'),
      clearAperture: quantityOf(1, 'mm'),
      isolation: quantityOf(30, 'dB'),
    }
    relay.stretch = quantityOf(5, 'mm')
    const either = () =>
      checkRequirements(own, evaluateCandidate(own, candidate.id)).find(({ id }) => id === 'either-1')
    expect(either()).toMatchObject({
      status: 'met',
      reason: expect.stringContaining('Isolator in the collimated section'),
    })
    relay.device.clearAperture = quantityOf(1.5, 'mm')
    expect(either()?.status).not.toBe('met')
  })

  test('ends in an order list for every design and a review that prints every requirement', () => {
    for (const { id, name } of judged) {
      expect(orderList(project, id)?.lines.length ?? 0, name).toBeGreaterThan(0)
    }
    const [conditions, asked] = tablesOf(sheetOf(project), 'job')
    expect(conditions?.rows[0]?.cells).toEqual(['Direction of light', 'chip to fibre'])
    expect(asked?.rows.map(({ cells }) => cells[0])).toEqual(
      statedRequirements(project.requirements).map(({ label }) => label),
    )
    expect(asked?.rows.find(({ mark }) => mark === 'requirement-isolator')?.cells[1]).toBe(
      'mandatory; or instead: PER ≥ 20 dB',
    )
    expect(sheetOf(project).sections.some(({ id }) => id === 'cautions')).toBe(true)
    const unticked = { ...project, review: { left: ['cautions'] } }
    expect(sheetOf(unticked).sections.some(({ id }) => id === 'cautions')).toBe(true)
  })
})
