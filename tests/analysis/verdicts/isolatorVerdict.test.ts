// The isolator that is requested against the one that a design holds.

import { describe, expect, test } from 'vitest'
import { isolatorVerdict } from '../../../src/analysis/verdicts/isolatorVerdict'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { familiesProject } from '../support/families'

function answerOf(
  id: string,
  change: (project: ReturnType<typeof familiesProject>) => void = () => undefined,
) {
  const project = familiesProject()
  project.requirements.direction = 'fibre to chip'
  project.requirements.isolator = {
    length: quantityOf(2.5, 'mm'),
    aperture: quantityOf(900, 'um'),
    isolation: quantityOf(30, 'dB'),
  }
  const candidate = project.candidates.find((each) => each.id === id)
  const relay = candidate?.chain.find(({ kind }) => kind === 'relay')
  if (relay?.kind === 'relay' && relay.device !== undefined) {
    Object.assign(relay.device, {
      length: quantityOf(2.5, 'mm'),
      clearAperture: quantityOf(900, 'um'),
      isolation: quantityOf(30, 'dB'),
    })
  }
  change(project)
  if (candidate === undefined) throw new Error(`no ${id}`)
  return isolatorVerdict(project, candidate).map(({ status, reason }) => `${status}: ${reason}`)
}
const device = (change: object) => (project: ReturnType<typeof familiesProject>) => {
  const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
  if (relay?.kind === 'relay') Object.assign(relay.device ?? {}, change)
}

describe('a requested isolator', () => {
  test('is held by the device of a relay that is as long, no wider and isolates as much', () => {
    expect(answerOf('relay')).toEqual(['met: Isolator in the collimated section'])
    expect(
      answerOf('relay', device({ length: quantityOf(2500, 'um'), clearAperture: quantityOf(0.9, 'mm') })),
    ).toEqual(['met: Isolator in the collimated section'])
    expect(
      answerOf('relay', device({ length: quantityOf(3, 'mm'), isolation: quantityOf(40, 'dB') }))[0],
    ).toMatch(/^met/)
  })

  test.each([
    [{ length: quantityOf(2.4, 'mm') }, 'not met: modelled with a length of only 2.4 mm'],
    [{ clearAperture: quantityOf(1, 'mm') }, 'not met: modelled with a larger aperture, 1 mm'],
    [{ isolation: quantityOf(29, 'dB') }, 'not met: isolation of only 29 dB'],
    [
      { length: quantityOf(2, 'mm'), isolation: quantityOf(20, 'dB') },
      'not met: modelled with a length of only 2 mm; isolation of only 20 dB',
    ],
    [{ isolation: undefined }, 'not met: no isolator in the collimated section'],
  ])('%#: falls short by what is said', (change, said) => {
    expect(answerOf('relay', device(change))).toEqual([said])
  })

  test('needs a collimated section and light in one direction, and is asked of nobody where it is not requested', () => {
    expect(answerOf('cleaved-dry')).toEqual(['not met: no collimated section to hold an isolator'])
    expect(
      answerOf('relay', (project) => {
        project.requirements.direction = 'both'
      }),
    ).toEqual(['not met: light travels in both directions, but an isolator transmits in one only'])
    expect(
      answerOf('relay', (project) => {
        delete project.requirements.isolator
      }),
    ).toEqual([])
  })
})
