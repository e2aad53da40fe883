// The examples of docs/library.md, run as a reader would run them: scripts by the built module, commands by their function.

import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { buildLibrary, isFresh, libraryPath } from '../../.config/library.mjs'
import { demoProject, projectText } from '../../src/model/index'
import { evaluateCommand } from '../../src/report/command/evaluateCommand'

const page = readFileSync('docs/library.md', 'utf8')
const scripts = [...page.matchAll(/```js\n([\s\S]*?)```/g)].map((found) => found[1] ?? '')

/** What an example says that it prints: after `// ` at the end of a line or on lines of their own. */
const promised = (script: string) =>
  [...script.matchAll(/(?:console\.log\(.*\)|^) ?\/\/ (.*)$/gm)].map((found) => found[1])

describe('docs/library.md', () => {
  beforeAll(async () => {
    if (!isFresh()) await buildLibrary({ types: false })
  })

  test('has examples that print what they say', () => {
    const folder = mkdtempSync(join(dirname(libraryPath), 'examples-')) // inside the package, so that its name is found
    try {
      expect(scripts.length).toBeGreaterThanOrEqual(3)
      for (const [at, script] of scripts.entries()) {
        const file = join(folder, `${at}.mjs`)
        writeFileSync(file, script)
        const printed = execFileSync(process.execPath, [file], { encoding: 'utf8' }).trimEnd().split('\n')
        expect(printed).toEqual(promised(script))
      }
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  test('shows the first rows of the sweep as the command prints them', async () => {
    const [, line = ''] = /npm run evaluate -- (demo\.json .*)$/m.exec(page) ?? []
    const said: string[] = []
    const exit = await evaluateCommand(line.replaceAll('"', '').split(' '), {
      readText: () => projectText(demoProject()),
      writeFile: () => undefined,
      say: (text) => said.push(text),
      complain: (text) => said.push(text),
      today: '2026-01-02',
    })
    expect(exit).toBe(0)
    const [, table = ''] = /```text\n([\s\S]*?)\n```/.exec(page) ?? []
    expect(said).toHaveLength(4)
    expect(said.slice(0, 2)).toEqual(table.split('\n'))
  })
})
