// Modes of cross-sections are solved once, and serve only the wavelength and the cross-section that they were solved for.

import { produce } from 'immer'
import { afterEach, expect, test, vi } from 'vitest'
import { demoProject } from '../../src/model/index'
import { newCrossSection } from '../../src/model/parts/newCrossSection'
import { solvedKeys, startSolving, withSolvedFields } from '../../src/store/solvedFields'
import { workbench } from '../../src/store/workbench'

let stop = () => {}
afterEach(() => stop())

test('a solved mode is not used for another wavelength or another core, and is there again for its own', async () => {
  const project = produce(demoProject(), (draft) => {
    for (const facet of draft.facets.slice(0, 1)) {
      facet.crossSection = newCrossSection(0.7, 0.2)
      facet.modeShape = { kind: 'cross-section' }
    }
  })
  workbench.getState().replaceProject(project)
  const { project: own } = workbench.getState()
  expect(solvedKeys(own)).toBe('')
  stop = startSolving()
  await vi.waitFor(() => expect(solvedKeys(own)).not.toBe(''), { timeout: 60_000, interval: 50 })
  stop()
  expect(withSolvedFields(own).facets[0]?.modeShape).not.toEqual(own.facets[0]?.modeShape)
  const redder = produce(own, (draft) => {
    draft.requirements.wavelength.value += 50
  })
  const wider = produce(own, (draft) => {
    const core = draft.facets[0]?.crossSection?.cores[0]
    if (core !== undefined) core.width.value += 0.05
  })
  for (const changed of [redder, wider]) {
    expect(solvedKeys(changed)).toBe('')
    expect(withSolvedFields(changed)).toBe(changed)
  }
  expect(solvedKeys(own)).not.toBe('')
  const renamed = produce(own, (draft) => {
    draft.name = 'Renamed'
  })
  expect(solvedKeys(renamed)).toBe(solvedKeys(own))
}, 90_000)
