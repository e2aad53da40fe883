// npm run mutants -- src/measure --single 25 --seed 5 [--skip nearField,lotCoverage] [--further yes]: single changes drawn from all
// operators inside the functions of a folder. Each is tried with the six nearest of the test files that reach the changed file, without
// the long ones of longestFirst.ts and those whose path contains one of the words after --skip. With --further, what these do not notice
// is tried with all other test files that reach it.

import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { Instrumenter } from '@stryker-mutator/instrumenter'

const FILES_TRIED = 6
/** Test files of one further run: it ends at the first that fails, and the next run begins with the next nearest. */
const FILES_TOGETHER = 8
/** Next to other work a test takes longer: only an endless loop should be ended. */
const LIMIT_MS = 240_000

/** The position of a line and column, both from 0, in a text. */
function positionIn(text, { line, column }) {
  const before = text.split('\n').slice(0, line)
  return before.reduce((sum, each) => sum + each.length + 1, 0) + column
}

/** Every change of an operator inside a function: what a module computes while it loads is left out. */
async function changesOf(files, excludedMutations) {
  const silent = { debug: () => {}, info: () => {}, isDebugEnabled: () => false }
  const atLoad = {
    shouldIgnore: (path) => (path.isBinary() && path.getFunctionParent() === null ? 'at load' : undefined),
  }
  const sources = files.map((name) => ({ name, mutate: true, content: readFileSync(name, 'utf8') }))
  const { mutants } = await new Instrumenter(silent).instrument(sources, {
    excludedMutations,
    ignorers: [atLoad],
    plugins: null,
  })
  return mutants
    .filter(({ status }) => status !== 'Ignored')
    .map(({ fileName, location, replacement }) => {
      const text = readFileSync(fileName, 'utf8')
      const [from, to] = [positionIn(text, location.start), positionIn(text, location.end)]
      return { file: relative('.', fileName), line: location.start.line + 1, from, to, replacement }
    })
}

/** The files of the project that a file imports, types excepted. */
function importedBy(file) {
  const text = readFileSync(file, 'utf8')
  const named = [...text.matchAll(/^(?:import|export)(?! type)[^'"]*?'(\.[^']+)'|\bimport\('(\.[^']+)'\)/gm)]
  return named.flatMap(([, fixed, lazy]) => {
    const path = join(file, '..', fixed ?? lazy)
    return ['', '.ts', '.tsx', '/index.ts']
      .map((end) => path + end)
      .filter((each) => /\.tsx?$/.test(each) && existsSync(each))
  })
}

/** Number of imports between a test file and every file that it reaches. */
function reachedFrom(test) {
  const steps = new Map([[test, 0]])
  for (const [file, count] of steps) {
    for (const next of importedBy(file)) if (!steps.has(next)) steps.set(next, count + 1)
  }
  return steps
}

/** For a file, the tests that reach it: same folders first, then by the number of imports between them. */
function nearestTests(tests, skip) {
  const long = readFileSync('.config/longestFirst.ts', 'utf8')
  const isQuick = (test) => !long.includes(`'${test}'`) && !skip.some((word) => test.includes(word))
  const reaching = tests.filter(isQuick).map((test) => [test, reachedFrom(test)])
  return (file) => {
    const parts = file.split('/').slice(1)
    const shared = (test) =>
      test
        .replace('.test', '')
        .split('/')
        .slice(1)
        .findIndex((part, at) => part !== parts[at])
    const rank = (test, steps) => [-(shared(test) < 0 ? parts.length : shared(test)), steps.get(file)]
    return reaching
      .filter(([, steps]) => steps.has(file))
      .map(([test, steps]) => ({ test, rank: rank(test, steps) }))
      .sort((a, b) => a.rank[0] - b.rank[0] || a.rank[1] - b.rank[1] || (a.test < b.test ? -1 : 1))
      .slice(0, FILES_TRIED)
      .map(({ test }) => test)
  }
}

/** For a file, the other tests that reach it, in runs: by the number of imports between them, the long ones last. */
function furtherTests(tests, nearest) {
  const long = readFileSync('.config/longestFirst.ts', 'utf8')
  const reaching = tests.map((test) => [test, reachedFrom(test)])
  return (file) => {
    const tried = nearest(file)
    const rest = reaching
      .filter(([test, steps]) => steps.has(file) && !tried.includes(test))
      .map(([test, steps]) => ({ test, rank: [long.includes(`'${test}'`), steps.get(file)] }))
      .sort((a, b) => a.rank[0] - b.rank[0] || a.rank[1] - b.rank[1])
      .map(({ test }) => test)
    return Array.from({ length: Math.ceil(rest.length / FILES_TOGETHER) }, (_, i) =>
      rest.slice(i * FILES_TOGETHER, (i + 1) * FILES_TOGETHER),
    )
  }
}

/** Whether the tests pass with a change, which mutants.vitest.mjs makes while the file is read: nothing on the disk is touched. */
function outcome(tests, change) {
  return new Promise((finished) => {
    const vitest = [
      resolve('node_modules/vitest/vitest.mjs'),
      'run',
      '--config',
      '.config/mutants.vitest.mjs',
    ]
    // Threads end with their process, also in an endless loop.
    const command = [...vitest, '--bail', '1', '--no-isolate', '--pool', 'threads', '--maxWorkers', '1']
    const env = { ...process.env, MUTANTS_TESTS: tests.join(','), MUTANT: JSON.stringify(change) }
    const child = spawn(process.execPath, command, {
      env,
      stdio: 'ignore',
      timeout: change === null ? 0 : LIMIT_MS,
      killSignal: 'SIGKILL',
    })
    child.on('close', (code) => finished(code === null ? 'Timeout' : code === 0 ? 'Survived' : 'Killed'))
  })
}

const isMissed = (status) => status === 'Survived' || status === 'NoCoverage'

/** A change in two lines: where, and the operator's expression before and after. */
function described({ file, line, from, to, replacement }) {
  return `${file}:${line}  ${readFileSync(file, 'utf8').slice(from, to)}\n    becomes  ${replacement}`
}

/** Tries the changes drawn by `draw` and prints what became of each; with `onlyListed` they are printed only. */
export async function trySingleChanges({
  folders,
  files,
  draw,
  leftOut,
  tests,
  skip,
  workers,
  onlyListed,
  further,
}) {
  const all = await changesOf(files, leftOut)
  const drawn = draw(all)
  const testsOf = nearestTests(tests, skip)
  if (onlyListed) {
    for (const change of drawn) console.log(`${described(change)}\n    ${testsOf(change.file).join(' ')}`)
    return
  }
  const used = [...new Set(drawn.flatMap(({ file }) => testsOf(file)))]
  if ((await outcome(used, null)) !== 'Survived') throw new Error('These tests fail without a change as well')
  const furtherOf = furtherTests(tests, testsOf)
  const statuses = []
  const waiting = [...drawn]
  const worker = async () => {
    for (let change = waiting.shift(); change !== undefined; change = waiting.shift()) {
      const reaching = testsOf(change.file)
      let status = reaching.length === 0 ? 'NoCoverage' : await outcome(reaching, change)
      for (const others of further && isMissed(status) ? furtherOf(change.file) : [])
        if (isMissed(status) && (await outcome(others, change)) !== 'Survived') status = 'Farther'
      statuses.push(status)
      console.log(`${status}  ${described(change)}`)
    }
  }
  await Promise.all(Array.from({ length: workers }, worker))
  const noticed = statuses.filter((status) => status === 'Killed' || status === 'Timeout').length
  const farther = statuses.filter((status) => status === 'Farther').length
  const share = (count) => `${count}, ${((100 * count) / Math.max(drawn.length, 1)).toFixed(0)} %`
  console.log(`\n${folders.join(', ')}: ${drawn.length} of ${all.length} single changes`)
  console.log(`noticed by the nearest tests: ${share(noticed)}`)
  if (further) console.log(`by all tests that reach them: ${share(noticed + farther)}`)
}
