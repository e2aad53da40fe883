import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'
import { GLOSSARY, type Term, termFacts, termIdOfLabel, termOf } from '../../../src/model/words/glossary'
import { LABELS_OF } from '../../../src/model/words/glossary/labels'

/** The whole glossary as Markdown. */
function glossaryMarkdown(): string {
  const entry = (term: Term) => {
    const facts = termFacts(term).map(([name, text]) => `${name}: ${text}`)
    return [`**${term.name}.** ${term.definition}`, ...facts].join('  \n')
  }
  const areas = GLOSSARY.map(({ title, terms }) => [`## ${title}`, ...terms.map(entry)].join('\n\n'))
  return `${['# Glossary', 'One name for one quantity, on screen, in messages, in files and in this guide.', ...areas].join('\n\n')}\n`
}

const terms = GLOSSARY.flatMap((area) => area.terms)
const src = resolve(import.meta.dirname, '../../../src')

function sources(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return sources(path)
    return name.endsWith('.tsx') ? [path] : []
  })
}

describe('the glossary', () => {
  test('docs/guide/glossary.md is its rendering', async () => {
    await expect(glossaryMarkdown()).toMatchFileSnapshot('../../../docs/guide/glossary.md')
  })

  test('has every id once and every name once', () => {
    expect(new Set(terms.map(({ id }) => id)).size).toBe(terms.length)
    expect(new Set(terms.map(({ name }) => name)).size).toBe(terms.length)
  })

  test.each(terms)('$id is written as the other entries are', ({ name, definition, unit }) => {
    expect(name).toMatch(/^[A-Z±0-9]/)
    expect(definition).toMatch(/^[A-Z].*\.$/s)
    expect(definition.length).toBeLessThanOrEqual(260)
    expect(`${name} ${definition} ${unit ?? ''}`).not.toMatch(/\d ?um\b|\b(root|worst) corner\b|\d °/)
  })

  test('knows every id that a label names', () => {
    const named = sources(src).flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/<Term\b[^>]*\bid="(\w+)"|\bterm[=:]\s*["'](\w+)["']/g)].map(
        (match) => match[1] ?? match[2] ?? '',
      ),
    )
    expect(named.filter((id) => termOf(id) === undefined)).toEqual([])
  })

  test('explains a label with or without unit, sign and abbreviation', () => {
    for (const label of [
      'Return loss',
      'return loss, dB',
      'Return loss (RL)',
      'Return loss:',
      'Minimum return loss ≥',
    ]) {
      expect(termIdOfLabel(label), label).toBe('returnLoss')
    }
    expect(termIdOfLabel('MFD x, µm')).toBe('mfdXY')
    expect(termIdOfLabel('Cure shift, x')).toBe('cureShift')
    expect(termIdOfLabel('Name')).toBeUndefined()
  })

  test('gives every label to one entry only', () => {
    const all = terms.flatMap(({ id, name }) =>
      [name, ...(LABELS_OF[id] ?? [])].map((label) => ({ id, label })),
    )
    expect(all.filter(({ id, label }) => termIdOfLabel(label) !== id)).toEqual([])
  })

  test('does not know what it does not have', () => {
    expect(termOf('phlogiston')).toBeUndefined()
    expect(termOf('constructor')).toBeUndefined()
  })
})
