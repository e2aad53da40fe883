// The quick look that every edit passes says no where the reader would, for the amounts that no single entry shows.

import { describe, expect, test } from 'vitest'
import { demoProject } from '../../../src/model/index'
import { projectCheck } from '../../../src/model/project/projectCheck'
import type { Project } from '../../../src/model/schema/project'

const MB = 'n'.repeat(1_000_000)

/** The demo with so many copies of a field that no project has, one in each of new fibres. */
function withMore(count: number, more: object): Project {
  const demo = demoProject()
  const [fibre] = demo.fibres
  const copies = Array.from({ length: count }, (_, i) => ({ ...fibre, id: `copy-${i}`, more }) as never)
  return { ...demo, fibres: [...demo.fibres, ...copies] }
}

describe('the check after an edit', () => {
  test.each([
    ['text besides readings', { text: MB }, 23, 24],
    ['packed numbers', { base64: MB }, 63, 64],
  ])('allows %s up to the limit of a file and no further, as the reader does', (_, more, most, tooMuch) => {
    const check = projectCheck()
    expect(check(withMore(most, more))).toEqual([])
    // The words are the reader's, which is asked once the quick look says no.
    const [issue] = check(withMore(tooMuch, more))
    expect(issue?.code).toBe('size')
  })

  test('sees a fault in what is in no list, after any number of projects in order', () => {
    const check = projectCheck()
    const demo = demoProject()
    expect(check(demo)).toEqual([])
    const [design, ...others] = demo.candidates
    const renamed = { ...demo, candidates: [{ ...design, name: 'Renamed' } as never, ...others] }
    expect(check(renamed)).toEqual([])
    const faulty = { ...renamed, requirements: { ...demo.requirements, channels: -1 } }
    expect(check(faulty).map(({ path }) => path.join('.'))).toEqual(['requirements.channels'])
    expect(check(renamed)).toEqual([])
    const additional = { ...renamed, requirement: demo.requirements, seed: -0.5 }
    expect(check(additional as never).map(({ path }) => path.join('.'))).toEqual(['seed'])
  })
})
