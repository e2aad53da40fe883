// npm run fuzz -- --seed N --minutes M: tries damaged projects, damaged measurement files and texts of number fields, and writes
// the table of docs/robustness.md. Without minutes it tries 2,000 projects, 1,000 files and 5,000 texts. A mutant is known by its
// kind, seed and number: `npm run fuzz -- --only project:1234 --seed 1` tries one again.

import { readFileSync, writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'

const COUNTS = { project: 2000, file: 1000, number: 5000 }
/** A mutant that takes more processor time has hung the app. Waiting for a busy machine is ignored. */
const LONGEST_MS = 120_000
const LOOK_EVERY_MS = 5000
/** A thread that waits for ever takes nothing of the processor. */
const LONGEST_WAIT_MS = 20 * LONGEST_MS
const PAGE = new URL('../../docs/robustness.md', import.meta.url)
const MARKS = ['<!-- fuzz: begin -->', '<!-- fuzz: end -->']

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    minutes: { type: 'string' },
    only: { type: 'string' },
  },
})
const seed = Number(values.seed)
const end =
  values.minutes === undefined ? Number.POSITIVE_INFINITY : Date.now() + 60_000 * Number(values.minutes)

/** What this process has used of the processor, milliseconds; this thread itself does next to nothing. */
function usedMs() {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

let member = null

async function hired() {
  if (member !== null) return member
  const worker = new Worker(new URL('./member.mjs', import.meta.url))
  const { kinds } = await new Promise((resolve, reject) => {
    worker.once('message', resolve)
    worker.once('error', reject)
  })
  member = { worker, kinds }
  return member
}

async function outcomeOf(id, number) {
  const { worker } = await hired()
  return new Promise((resolve) => {
    const over = (outcome) => {
      clearInterval(timer)
      worker.off('message', over)
      worker.off('error', died)
      resolve(outcome)
    }
    const lost = (fault) => {
      member = null
      void worker.terminate()
      over({ kind: 'fault', faults: [fault] })
    }
    const died = (error) => lost(`the thread ended: ${error.message}`)
    const [usedBefore, start] = [usedMs(), performance.now()]
    const timer = setInterval(() => {
      const hung = usedMs() - usedBefore > LONGEST_MS || performance.now() - start > LONGEST_WAIT_MS
      if (hung) lost(`no answer in ${LONGEST_MS / 1000} s`)
    }, LOOK_EVERY_MS)
    worker.on('message', over)
    worker.once('error', died)
    worker.postMessage({ id, seed, number })
  })
}

const { kinds } = await hired()
const tallies = new Map(kinds.map(({ id }) => [id, { refused: 0, finite: 0, fault: 0, slowestMs: 0 }]))

async function tryOne(id, number) {
  const start = usedMs()
  const outcome = await outcomeOf(id, number)
  const tally = tallies.get(id)
  tally[outcome.kind]++
  tally.slowestMs = Math.max(tally.slowestMs, usedMs() - start)
  if (outcome.kind === 'fault') console.log(`${id}:${number} ${outcome.faults.slice(0, 3).join('\n  ')}`)
}

if (values.only !== undefined) {
  const [id, number] = values.only.split(':')
  await tryOne(id, Number(number))
} else {
  // In turns, so that a run that is cut short has seen some of each.
  const shares = kinds.map(({ id }) => ({ id, count: COUNTS[id], done: 0 }))
  while (Date.now() < end) {
    const open = Number.isFinite(end) ? shares : shares.filter(({ done, count }) => done < count)
    const next = open.toSorted((a, b) => a.done / a.count - b.done / b.count)[0]
    if (next === undefined) break
    await tryOne(next.id, next.done++)
  }
  const rows = kinds.map(({ id, label, what }) => {
    const { refused, finite, fault } = tallies.get(id)
    return `| ${label} | ${what} | ${refused + finite + fault} | ${refused} | ${finite} | ${fault} |`
  })
  const table = [
    MARKS[0],
    `Seed ${seed}; written by \`npm run fuzz\`.`,
    '',
    '| kind | what is changed, and what is done with it | tried | refused, field named | finite results | faults |',
    '| --- | --- | ---: | ---: | ---: | ---: |',
    ...rows,
    MARKS[1],
  ].join('\n')
  const page = readFileSync(PAGE, 'utf8')
  const [from, to] = [page.indexOf(MARKS[0]), page.indexOf(MARKS[1])]
  writeFileSync(PAGE, page.slice(0, from) + table + page.slice(to + MARKS[1].length))
}

let failed = false
for (const [id, { refused, finite, fault, slowestMs }] of tallies) {
  failed ||= fault > 0
  console.log(
    `${id}: ${refused} refused, ${finite} finite, ${fault} faults, slowest ${(slowestMs / 1000).toFixed(1)} s`,
  )
}
await member?.worker.terminate()
process.exit(failed ? 1 : 0)
