// No text that a user or a file can give makes the work grow faster than the text: every pattern of the source against texts
// that make patterns go back and try again, and every function that such a text meets first.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { parseSync } from 'vite'
import { describe, expect, test } from 'vitest'
import { pixelScaleUm } from '../src/measure/images/image'
import { readMeasurement, readScan } from '../src/measure/index'
import { splitLabel } from '../src/measure/reading/columnLabel'
import { metadataOf } from '../src/measure/reading/metadata'
import { parseNumber } from '../src/measure/reading/numberText'
import { readPartsCsv } from '../src/model/parts/partsCsv'
import { readProjectText } from '../src/model/project/parseProject'
import { RULES } from '../src/model/quantity/quantityRules'
import { readPlainQuantityText } from '../src/model/quantity/quantityText'
import { markdownText } from '../src/report/formats/markdown'
import { growthOf, MOST_GROWTH } from './support/growth'

const root = join(import.meta.dirname, '../src')

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return filesBelow(path)
    return /\.tsx?$/.test(name) ? [path] : []
  })
}

interface Pattern {
  readonly where: string
  readonly pattern: RegExp
}

/** The regular expressions that a file writes out, from its syntax tree. */
function patternsOf(path: string): readonly Pattern[] {
  const found: Pattern[] = []
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return
    const { regex } = node as { regex?: { pattern: string; flags: string } }
    if (regex !== undefined && regex !== null) {
      const where = `${relative(root, path)} /${regex.pattern}/`
      found.push({ where, pattern: new RegExp(regex.pattern, regex.flags.replace('g', '')) })
    }
    for (const each of Object.values(node)) walk(each)
  }
  walk(parseSync(path, readFileSync(path, 'utf8')).program)
  return found
}

const patterns = filesBelow(root).flatMap(patternsOf)

/** What is repeated: signs that patterns look for, alone and as they follow each other. */
const PUMPS = '1|a|x| |.|-|_|(|[|"|:|,|=|/|0|e1|1,|1.|x |1 |a |( |: |_a|pix|nm |d1|°|\\|µ| x|\u2028'.split(
  '|',
)
const STARTS = ['', '1', '(']
const ENDS = ['', '!', '\u2028a\u2028a']

const hostile = (start: string, pump: string, end: string) => (size: number) =>
  start + pump.repeat(Math.ceil(size / pump.length)) + end

const textsWith = (starts: readonly string[], size: number) =>
  starts.flatMap((start) =>
    PUMPS.flatMap((pump) =>
      ENDS.map((end) => {
        const of = hostile(start, pump, end)
        return { name: JSON.stringify([start, pump, end]), of, large: of(4 * size) }
      }),
    ),
  )
const PATTERN_SIZE = 700
const DOOR_SIZE = 500
const patternTexts = textsWith(STARTS, PATTERN_SIZE)
const doorTexts = textsWith([''], DOOR_SIZE)

/** Quicker than this is no work that could have grown much: quadratic work on the large texts is some ten milliseconds. */
const QUICK_MS = 2

/** The first text on which the work grows too fast, or null; a suspicion is measured. */
function tooFast(
  work: (text: string) => unknown,
  texts: ReturnType<typeof textsWith>,
  size: number,
): string | null {
  const found = texts.find(({ of, large }) => {
    const quick = () => {
      const start = performance.now()
      work(large)
      return performance.now() - start < QUICK_MS
    }
    if (quick() || quick() || quick()) return false // the first run also compiles, any may be interrupted
    const made = new Map<number, string>()
    const on = (each: number) => {
      const text = made.get(each) ?? of(each)
      made.set(each, text)
      return work(text)
    }
    return growthOf(on, size) > MOST_GROWTH
  })
  return found?.name ?? null
}

test('the source has patterns to look at', () => {
  expect(patterns.length).toBeGreaterThan(50)
})

test('the measure finds a quadratic pattern', () => {
  expect(tooFast((text) => /^(\d+\.?\d*)x$/.test(text), patternTexts, PATTERN_SIZE)).not.toBeNull()
})

describe.each(patterns)('$where', ({ pattern }) => {
  test('takes at most three times the work for twice the text', () => {
    expect(tooFast((text) => pattern.test(text), patternTexts, PATTERN_SIZE)).toBeNull()
  })
})

const bytes = (text: string) => new TextEncoder().encode(text)

const DOORS: Readonly<Record<string, (text: string) => unknown>> = {
  'a number field': (text) => readPlainQuantityText(text, RULES.gap),
  'a number of a table': (text) => parseNumber(text, '.'),
  'a column heading': splitLabel,
  'a comment of a scan': (text) => metadataOf([text]),
  'a comment of an image': (text) => pixelScaleUm([text]),
  'a scan of one line': (text) => readScan(text),
  'a scan with a heading': (text) => readScan(`x,${text}\n1,2\n2,3\n`),
  'a file': (text) => readMeasurement(bytes(text || 'x'), 'file.txt'),
  'a list of parts': (text) => readPartsCsv(text),
  'a project file': (text) => readProjectText(text),
  'a remark on paper': markdownText,
}

describe.each(Object.entries(DOORS))('%s', (_, door) => {
  test('takes at most three times the work for twice the text', () => {
    expect(tooFast(door, doorTexts, DOOR_SIZE)).toBeNull()
  })
})
