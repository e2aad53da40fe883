import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { WORKED_EXAMPLES } from './workedExamples'

const text = readFileSync(new URL('../../docs/physics.md', import.meta.url), 'utf8')

/** "Worked: name = value unit"; the name may hold an equals sign, the value is the number after the last one. */
const LINE = /^Worked: (?<name>.+) = (?<value>-?\d+(?:\.(?<digits>\d+))?)(?: (?<unit>[^ =]+))?$/

const lines = text.split('\n').filter((line) => line.startsWith('Worked:'))
const examples = lines.map((line) => {
  const groups = LINE.exec(line)?.groups
  if (groups === undefined) throw new Error(`docs/physics.md: cannot read "${line}"`)
  return { name: groups.name ?? '', value: Number(groups.value), digits: (groups.digits ?? '').length }
})

describe('the worked examples of docs/physics.md are what the core computes', () => {
  test.each(examples)('$name = $value', ({ name, value, digits }) => {
    const compute = WORKED_EXAMPLES[name]
    if (compute === undefined) expect.fail(`workedExamples.ts has no "${name}"`)
    expect(Math.abs(compute() - value)).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9))
  })
})

test('every computed example is in the text, once', () => {
  expect(examples.map((example) => example.name).sort()).toEqual(Object.keys(WORKED_EXAMPLES).sort())
})

describe('every concept after the conventions', () => {
  const sections = text.split(/^## /m).slice(2)

  test.each(sections.map((section) => [section.slice(0, section.indexOf('\n')), section] as const))(
    '%s has its source, code, validity, limiting cases and a worked example',
    (_title, section) => {
      for (const part of ['Source', 'Code', 'Validity', 'Limiting case', 'Worked']) {
        expect(section).toMatch(new RegExp(`(?:^|[\\s(])${part}s?[:,. ]`))
      }
    },
  )
})
