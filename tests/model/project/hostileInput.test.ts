import { describe, expect, test } from 'vitest'
import { demoProject, projectText, readProject, readProjectText } from '../../../src/model/index'
import { countingSteps, hostileInputIssues, INPUT_LIMITS } from '../../../src/model/project/hostileInput'
import { READING_LIMITS } from '../../../src/model/words/limits'
import { finish } from '../../../src/numerics/steps'
import { growthOf, MOST_GROWTH } from '../../support/growth'

const holdsTooMuch = (text: string) => finish(countingSteps(text))

const message = (text: string) => {
  const read = readProjectText(text)
  return read.ok ? '' : read.issues[0]?.message
}
const demo = projectText(demoProject()).trimEnd()
const withField = (text: string) => `${demo.slice(0, -1)},"more":${text}}`
const zeros = (count: number) => `[${'0,'.repeat(count - 1)}0]`
const TOO_MANY = `the file holds more than ${INPUT_LIMITS.nodes} values, the limit for a project`

describe('a file of too many values', () => {
  test('is refused whether they are numbers, keys or lists', () => {
    expect(message(withField(zeros(3_000_000)))).toBe(TOO_MANY)
    const keys = Array.from({ length: INPUT_LIMITS.nodes }, (_, i) => `"${i}":0`).join(',')
    expect(message(withField(`{${keys}}`))).toBe(TOO_MANY)
    expect(message(withField(`[${'[],'.repeat(1_500_000)}0]`))).toBe(TOO_MANY)
  })

  test('is refused before it is parsed: 60 MB take no memory beside the text', () => {
    const text = withField(zeros(29_900_000))
    expect(text.length).toBeLessThan(INPUT_LIMITS.textBytes)
    expect(text.indexOf('never')).toBe(-1) // makes one text of its pieces
    const before = process.memoryUsage().heapUsed
    expect(message(text)).toBe(TOO_MANY)
    expect(process.memoryUsage().heapUsed - before).toBeLessThan(50e6)
  })

  test('is counted by its values, not by what its texts hold', () => {
    const long = JSON.stringify(`",[{\\"${',[{'.repeat(900_000)}\\`)
    expect(holdsTooMuch(withField(long))).toBeNull()
    expect(readProjectText(withField(long)).ok).toBe(true)
  })

  test('is refused as data too, where there was no text', () => {
    const more = new Array(INPUT_LIMITS.nodes + 1).fill(0)
    expect(hostileInputIssues({ more })[0]?.message).toBe(TOO_MANY)
    expect(hostileInputIssues({ more: more.slice(10_000) })).toEqual([])
  })
})

describe('a file of too much text', () => {
  const { plainBytes } = INPUT_LIMITS
  const textCharacters = READING_LIMITS.packedCharacters

  test('is refused for one text longer than any reading', () => {
    const of = (length: number) => withField(JSON.stringify('x'.repeat(length)))
    expect(message(of(textCharacters + 1))).toContain(
      'a text of 12\u202f000\u202f001 characters; the limit is',
    )
    expect(readProjectText(of(textCharacters)).ok).toBe(true)
  })

  test('is refused for more than readings can account for, numbers, texts or spaces alike', () => {
    const REFUSED =
      'without readings and sampled fields, the file is larger than 24.0 MB, the limit for a project'
    expect(message(withField(`[${'0.1234567890123456789012345,'.repeat(plainBytes / 27)}0]`))).toBe(REFUSED)
    const text = `"${'n'.repeat(1_000_000)}",`
    expect(message(withField(`[${text.repeat(plainBytes / 1e6)}0]`))).toBe(REFUSED)
    expect(message(withField(`[${' '.repeat(plainBytes)}0]`))).toBe(REFUSED)
  })

  test('counts the texts of packed numbers apart, however the file is spaced, and no others', () => {
    const MB = 'n'.repeat(1_000_000)
    const of = (field: string) =>
      holdsTooMuch(withField(`[${`{${field}"${MB}"},`.repeat(plainBytes / 1e6)}0]`))
    for (const field of ['"base64":', '"base64" : ', '"base64"\n\t:\r\n']) expect(of(field)).toBeNull()
    for (const field of ['"base6":', '"xbase64":', '"base64":"",'.concat('"x":'), '"base64x":'])
      expect(of(field)).not.toBeNull()
  })
})

test('work grows with the file, not faster', () => {
  const texts = new Map([50_000, 200_000].map((size) => [size, `[${'"a text of a file",'.repeat(size)}0]`]))
  expect(growthOf((size) => holdsTooMuch(texts.get(size) ?? ''), 50_000)).toBeLessThan(MOST_GROWTH)
  const lists = new Map([50_000, 200_000].map((size) => [size, new Array(size).fill([0])]))
  expect(growthOf((size) => hostileInputIssues(lists.get(size)), 50_000)).toBeLessThan(MOST_GROWTH)
})

test('what is wrong is named by its path', () => {
  let deep: unknown = 1
  for (let i = 0; i < 50; i++) deep = { inner: deep }
  expect(hostileInputIssues({ a: [0, deep] })[0]?.message).toContain(
    'a[1].inner.inner… is nested deeper than 40',
  )
  const reserved = JSON.parse('{"a":[{"__proto__":{}}]}')
  expect(hostileInputIssues(reserved)[0]).toMatchObject({ path: ['a', 0, '__proto__'] })
  expect(readProject({ ...demoProject(), constructor: 1 }).ok).toBe(false)
})
