// The documents hold together: no link and no file name leads nowhere, every page of the guide is in its index and in the app's
// list, every screen and tab has a page.

import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { GUIDE_PAGES } from '../../src/panels/help/guidePages'
import { DEPTH_TABS, PAGES } from '../../src/store/view'

const below = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.md'))
    .map((entry) => join(entry.parentPath, entry.name))

const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'src/README.md', ...below('docs')]

const FILES = ['src', 'tests', '.config'].flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => `/${folder}/${name}`),
)

const linksOf = (file: string) =>
  [...readFileSync(file, 'utf8').matchAll(/\]\(([^()\s]+)\)/g)].map((found) => found[1] ?? '')

const guide = readdirSync('docs/guide').filter((name) => name.endsWith('.md'))

describe('the documents', () => {
  test.each(DOCUMENTS)('%s has no link that leads nowhere', (file) => {
    const lost = linksOf(file)
      .filter((link) => !/^(https?:|#|mailto:)/.test(link))
      .map((link) => link.replace(/#.*$/, ''))
      .filter((link) => !existsSync(join(dirname(file), link)))
    expect(lost).toEqual([])
  })

  test.each(DOCUMENTS)('%s names no file that does not exist', (file) => {
    const named = [...readFileSync(file, 'utf8').matchAll(/`([\w./-]+\.(?:tsx?|mjs))`/g)].map(
      (found) => `/${found[1]}`,
    )
    expect(named.filter((name) => !FILES.some((each) => each.endsWith(name)))).toEqual([])
  })

  test('README is at most 120 lines long', () => {
    expect(readFileSync('README.md', 'utf8').split('\n').length).toBeLessThanOrEqual(120)
  })
})

/** Words of a title or an identifier, in small letters: `firstLight` and `First light` are the same. */
const plain = (text: string) => text.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()

describe('the guide', () => {
  test.each([...PAGES, ...DEPTH_TABS])('has a page for %s', (screen) => {
    const titles = GUIDE_PAGES.flatMap(([, title]) => title.split(', ')).map(plain)
    expect(titles).toContain(plain(screen))
  })

  test('has every page in its index', () => {
    const index = linksOf('docs/guide/README.md')
    expect(guide.filter((name) => name !== 'README.md' && !index.includes(name))).toEqual([])
  })

  test('has every page in the app, where it is not a list of its own there', () => {
    const shown = GUIDE_PAGES.map(([id]) => `${id}.md`)
    expect(guide.filter((name) => !['README.md', 'glossary.md', ...shown].includes(name))).toEqual([])
    expect(shown.filter((name) => !guide.includes(name))).toEqual([])
  })

  // A screen of 1080 pixels shows about 250 words of a page; pictures are extra.
  test.each(guide.filter((name) => name !== 'glossary.md'))('%s has at most two screens of text', (name) => {
    const words = readFileSync(join('docs/guide', name), 'utf8').split(/\s+/).length
    expect(words).toBeLessThan(500)
  })

  test.each(guide.filter((name) => !['README.md', 'glossary.md', 'command-line.md'].includes(name)))(
    '%s has a picture',
    (name) => {
      expect(linksOf(join('docs/guide', name)).some((link) => link.startsWith('pictures/'))).toBe(true)
    },
  )

  test('uses every picture that is taken for it', () => {
    const used = guide.flatMap((name) => linksOf(join('docs/guide', name)))
    const taken = readdirSync('docs/guide/pictures').filter((name) => name.endsWith('.png'))
    expect(taken.filter((name) => !used.includes(`pictures/${name}`))).toEqual([])
  })
})
