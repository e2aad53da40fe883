import { describe, expect, test } from 'vitest'
import { arrayAssumptions } from '../../../src/analysis/array/arrayAssumptions'
import { blockOf } from '../../../src/analysis/array/block'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { twoDesigns } from '../../support/twoDesigns'
import { familiesProject, relayElement } from '../support/families'

function sentencesOf(project: Project, id: string, temperaturesC: readonly number[] = []): string {
  const block = blockOf({ ...project, requirements: { ...project.requirements, channels: 4 } }, id)
  if (!block.ok) throw new Error('no block')
  return arrayAssumptions(block.value, temperaturesC).join('\n')
}

function aligned(...axes: NonNullable<GapElement['aligned']>): Project {
  const project = twoDesigns()
  for (const element of project.candidates[0]?.chain ?? []) if (element.kind === 'gap') element.aligned = axes
  return project
}

describe('the assumptions of an array', () => {
  test('name the axes in which the station moves the row', () => {
    const of = (...axes: NonNullable<GapElement['aligned']>) => sentencesOf(aligned(...axes), 'cleaved-dry')
    expect(of('offsetX', 'offsetY', 'roll')).toContain(
      'The station aligns offset x, offset y, and roll of each',
    )
    expect(of('offsetY')).toContain('The station aligns offset y of each array')
    expect(of()).toContain('Offsets and roll are not actively aligned')
    expect(of()).toContain('Axial distances and tilts are set to the entered values.')
    expect(of('offsetX', 'gap')).toContain('are aligned for an ideal channel at the middle of the array')
  })

  test('name the decentre of lenses that are moved, and the order of the rows where there are several', () => {
    const lens = { ...relayElement().lens1, aligned: ['offsetX', 'offsetY'] as const }
    const relay = relayElement({
      aligned: ['offsetX', 'offsetY'],
      lens1: { ...lens, aligned: [...lens.aligned] },
      alignOrder: ['lens1', 'guide'],
    })
    const said = sentencesOf(familiesProject(relay), 'relay')
    expect(said).toContain(
      'The station aligns lens 1 decentre x, lens 1 decentre y, offset x, and offset y of each array',
    )
    expect(said).toContain('Rows aligned in the order lens 1, then fibre side, one at a time')
    expect(said).toContain('Lenses have the pitch of their own row')
    expect(sentencesOf(aligned('offsetX'), 'cleaved-dry')).not.toMatch(/Rows aligned|Lenses have/)
  })

  test('say at which temperatures every channel is evaluated', () => {
    expect(sentencesOf(aligned(), 'cleaved-dry')).toContain('No mount defined')
    const said = sentencesOf(aligned(), 'cleaved-dry', [20, -5, 70])
    expect(said).toContain(
      'Assembled at 20 °C; each channel is evaluated at its worst temperature (20 °C, −5 °C and 70 °C)',
    )
  })
})
