// npm run mutants -- src/optics [--sample 120] [--seed 1] [--workers 2] [--tests tests/optics,tests/reference]: changes operators on a
// fixed random sample of lines, one at a time, runs the tests that reach each of them, and prints the changes that no test noticed.
// The tests are those of the same folders and the outside checks, unless they are named.
// With --single 25, so many single changes are drawn from all operators instead of lines: singleMutants.mjs.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { Stryker } from '@stryker-mutator/core'
import { trySingleChanges } from './singleMutants.mjs'

const OPERATORS = /[^=!<>]=[^=>]|[-+*/%<>]|&&|\|\||[!=]==/
/** Changes of words, blocks and plain values: what is left are arithmetic, comparisons, logic, signs and assignments. */
const LEFT_OUT = [
  'StringLiteral',
  'BlockStatement',
  'ObjectLiteral',
  'ArrayDeclaration',
  'ArrowFunction',
  'BooleanLiteral',
  'MethodExpression',
  'OptionalChaining',
  'Regex',
  'ConditionalExpression',
]

function filesBelow(path) {
  if (!statSync(path).isDirectory()) return [path]
  return readdirSync(path)
    .flatMap((name) => filesBelow(join(path, name)))
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))
}

/** Lines of code with an operator in them, as ranges; comments, imports and types have none worth changing. */
function linesOf(file) {
  let inComment = false
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((line, index) => {
      const starts = line.trimStart()
      if (starts.startsWith('/*')) inComment = true
      const code = !inComment && !/^(\/\/|\*|import|export (type|interface|\{)|type |readonly )/.test(starts)
      if (line.includes('*/')) inComment = false
      const bare = line.replace(/'[^']*'|`[^`]*`|\/\/.*|=>/g, '')
      return code && OPERATORS.test(bare) ? [`${file}:${index + 1}-${index + 1}`] : []
    })
}

/** A choice of `count` entries that is the same every time (mulberry32, then a partial shuffle). */
function sampled(entries, count, seed) {
  let state = seed
  const random = () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  const rest = [...entries]
  return Array.from({ length: Math.min(count, rest.length) }, () => {
    const [drawn] = rest.splice(Math.floor(random() * rest.length), 1)
    return drawn
  })
}

const words = process.argv.slice(2)
const option = (name, value) => {
  const at = words.indexOf(`--${name}`)
  return at < 0 ? value : words.splice(at, 2)[1]
}
const sample = Number(option('sample', 120))
const seed = Number(option('seed', 1))
const concurrency = Number(option('workers', 2))
const tests = option('tests', '')
const single = Number(option('single', 0))
const onlyListed = option('list', 'no') === 'yes'
const further = option('further', 'no') === 'yes'
const skip = option('skip', '').split(',').filter(Boolean)
const folders = words.length > 0 ? words : ['src/numerics', 'src/optics']

if (single > 0) {
  const files = folders.flatMap(filesBelow)
  const draw = (changes) => sampled(changes, single, seed)
  const tests = filesBelow('tests').filter((file) => file.endsWith('.test.ts') && !file.includes('/e2e/'))
  const settings = {
    folders,
    files,
    draw,
    leftOut: LEFT_OUT,
    tests,
    skip,
    workers: concurrency,
    onlyListed,
    further,
  }
  await trySingleChanges(settings)
  process.exit()
}

const lines = folders.flatMap(filesBelow).flatMap(linesOf)
const mutate = sampled(lines, sample, seed)
const mirrored = folders.map((folder) => folder.replace(/^src/, 'tests'))
process.env.MUTANTS_TESTS = tests === '' ? [...mirrored, 'tests/reference'].join(',') : tests

const results = await new Stryker({
  testRunner: 'vitest',
  vitest: { configFile: '.config/mutants.vitest.mjs', related: false },
  plugins: ['@stryker-mutator/vitest-runner'],
  mutate,
  mutator: { excludedMutations: LEFT_OUT, plugins: [] },
  coverageAnalysis: 'perTest',
  ignoreStatic: true, // each change of what is computed while a module loads would need every test again
  concurrency,
  dryRunTimeoutMinutes: 30,
  timeoutMS: 40_000, // next to other work a test takes longer: only an endless loop should be treated as one
  reporters: ['dots'],
  disableTypeChecks: true,
  tsconfigFile: 'none', // its own rewriting of that file needs an older TypeScript, and nothing here reads it
  tempDirName: 'node_modules/.cache/mutants',
  ignorePatterns: ['dist', 'dist-single', 'docs/**/*.png'],
  allowConsoleColors: false,
  logLevel: 'warn',
}).runMutationTest()

const noticed = results.filter(({ status }) => status === 'Killed' || status === 'Timeout').length
const missed = results.filter(({ status }) => status === 'Survived' || status === 'NoCoverage')
console.log(`\n${folders.join(', ')}: ${mutate.length} of ${lines.length} lines sampled, seed ${seed}`)
const endless = results.filter(({ status }) => status === 'Timeout')
for (const { fileName, location, replacement, status } of [...endless, ...missed]) {
  const { line, column } = location.start
  const text = readFileSync(fileName, 'utf8').split('\n')[line - 1]?.trim() ?? ''
  console.log(`${status}  ${relative('.', fileName)}:${line}:${column}  ${text}\n    becomes  ${replacement}`)
}
const judged = noticed + missed.length
console.log(
  `${noticed} of ${judged} changes noticed (${endless.length} ran out of time), ${((100 * noticed) / Math.max(judged, 1)).toFixed(1)} %`,
)
