import { describe, expect, test } from 'vitest'
import {
  demoProject,
  emptyProject,
  ProjectError,
  parseProject,
  projectText,
  readProjectText,
} from '../../../src/model/index'
import { INPUT_LIMITS } from '../../../src/model/project/hostileInput'

const raw = (): Record<string, unknown> => JSON.parse(projectText(demoProject()))

function messagesOf(json: unknown): readonly string[] {
  try {
    parseProject(json)
  } catch (error) {
    if (error instanceof ProjectError) return error.issues.map((issue) => issue.message)
    throw error
  }
  return []
}

describe('a project file', () => {
  test('of the demo and of the empty project reads back as it was written', () => {
    for (const project of [demoProject(), emptyProject()]) {
      const read = readProjectText(projectText(project))
      expect(read).toEqual({ ok: true, value: project, warnings: [] })
    }
  })

  test('keeps fields that this version does not know, at the top and inside parts', () => {
    const json = raw()
    json.colourOfTheLid = 'green'
    ;(json.fibres as Record<string, unknown>[])[0]!.spool = { metres: 12 }
    const written = JSON.parse(projectText(parseProject(json)))
    expect(written.colourOfTheLid).toBe('green')
    expect(written.fibres[0].spool).toEqual({ metres: 12 })
  })

  test('with several faults names every one with its path, the value seen and what is allowed', () => {
    const json = structuredClone(demoProject())
    const gap = json.candidates[0]!.chain[1]!
    if (gap.kind !== 'gap') throw new Error('the demo has changed')
    gap.gap.value = -3
    json.facets[0]!.mfdX.value = 0
    json.requirements.wavelength.unit = 'deg'
    const messages = messagesOf(json).join('\n')
    expect(messages).toContain('candidates[0].chain[1].gap.value is -3: gap is −3 µm; must be 0 to 100000 µm')
    expect(messages).toContain(
      'facets[0].mfdX.value is 0: mode-field diameter is 0 µm; must be 0.1 to 500 µm',
    )
    expect(messages).toContain('requirements.wavelength.unit is "deg"')
  })

  test('whose tolerances are beyond what a sum of them can hold is refused by name', () => {
    const messages = (tolerance: object) => {
      const json = structuredClone(demoProject())
      json.facets[0]!.mfdX.tolerance = {
        plusMinus: 0.1,
        distribution: 'normal',
        coverage: 3,
        ...tolerance,
      }
      return messagesOf(json)
    }
    expect(messages({})).toEqual([])
    for (const coverage of [0, 1e-300, 11]) {
      expect(messages({ coverage })[0]).toContain(`facets[0].mfdX.tolerance.coverage is ${coverage}`)
    }
    for (const plusMinus of [-1, 2e9, 1e300]) {
      expect(messages({ plusMinus })[0]).toContain(`facets[0].mfdX.tolerance.plusMinus is ${plusMinus}`)
    }
  })

  test('whose packed numbers are cut short or padded for another count is refused by name', () => {
    const lossesAs = (count: number, base64: string) => {
      const values = { type: 'u1', count, base64 }
      const common = { name: 'm', fileName: 'm.csv', date: '2026-03-14', notes: [] }
      return messagesOf({
        ...raw(),
        measurements: [{ ...common, id: 'm', method: 'repeated', unit: 'dB', values }],
      })
    }
    for (const [count, base64] of [
      [3, 'AAAA'],
      [2, 'AAA='],
      [1, 'AA=='],
      [0, ''],
    ] as const) {
      expect(lossesAs(count, base64)).toEqual([])
    }
    const AT = 'measurements[0].values.base64'
    for (const [count, base64, said] of [
      [2, 'AA==', '2 digits before its padding; must be 3 for 2 numbers of type u1'],
      [1, 'AAA=', '3 digits before its padding; must be 2 for 1 numbers of type u1'],
      [3, 'AAA=', '3 digits before its padding; must be 4 for 3 numbers of type u1'],
      [4, 'AAAA', '4 characters; must be 8 for 4 numbers of type u1'],
    ] as const) {
      const [message, ...more] = lossesAs(count, base64)
      expect(message).toContain(AT)
      expect(message).toContain(said)
      expect(more).toEqual([])
    }
  })

  test('whose path refers to a missing part names the id and the known ones', () => {
    const json = structuredClone(demoProject())
    json.facets[0]!.id = 'renamed'
    expect(messagesOf(json)[0]).toContain('"facet-nitride", which is not among facets; known: renamed')
  })

  test('of another format, a newer version or no version is refused with the reason', () => {
    expect(messagesOf({ ...raw(), format: 'other' })[0]).toContain('must be "modeseam-project"')
    expect(messagesOf({ ...raw(), version: 99 })[0]).toContain('written by a newer release')
    expect(messagesOf({ ...raw(), version: 'x' })[0]).toContain('version is "x"')
    expect(messagesOf([1, 2])[0]).toContain('the file is a list')
  })

  test('with reserved keys, deep nesting, numbers beyond range or too much text is refused', () => {
    const polluted = JSON.parse(`{"format":"modeseam-project","version":1,"x":{"__proto__":{"admin":true}}}`)
    expect(messagesOf(polluted)[0]).toContain('x.__proto__ uses the reserved key __proto__')
    expect(({} as Record<string, unknown>).admin).toBeUndefined()

    let deep: unknown = 1
    for (let i = 0; i < 100_000; i++) deep = [deep]
    expect(messagesOf({ ...raw(), deep })[0]).toContain(`nested deeper than ${INPUT_LIMITS.depth} levels`)

    const huge = projectText(demoProject()).replace('"value": 1653.7', '"value": 1e999')
    const read = readProjectText(huge)
    expect(read.ok).toBe(false)

    const long = readProjectText(' '.repeat(INPUT_LIMITS.textBytes + 1))
    expect(!long.ok && long.issues[0]?.message).toContain('the limit is 64 MB')
    const junk = readProjectText('not json {')
    expect(!junk.ok && junk.issues[0]?.message).toContain('the file is not JSON')
  })
})
