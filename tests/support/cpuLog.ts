// Where the seconds of a run go: with CPU_LOG=file set, a line of JSON for each test, with the CPU seconds of its worker and
// of the browser below it (Linux only). Seconds of the clock say little on a machine that does something else besides.

import { appendFileSync, readdirSync, readFileSync } from 'node:fs'
import { afterEach, beforeEach } from 'vitest'

const CLOCK_TICKS_PER_S = 100

/** Parent and CPU seconds of every process; those that end while they are read are left out. */
function processes(): ReadonlyMap<number, { readonly parent: number; readonly cpuS: number }> {
  const found = new Map<number, { readonly parent: number; readonly cpuS: number }>()
  for (const name of readdirSync('/proc').filter((each) => /^\d+$/.test(each))) {
    try {
      const text = readFileSync(`/proc/${name}/stat`, 'utf8')
      // After the name in brackets, which may hold anything: state, parent, ..., user and system time of the process as 12th and
      // 13th, and of its children that have ended as 14th and 15th.
      const fields = text
        .slice(text.lastIndexOf(')') + 2)
        .split(' ')
        .map(Number)
      const ticks = fields.slice(11, 15).reduce((sum, each) => sum + each, 0)
      const cpuS = ticks / CLOCK_TICKS_PER_S
      found.set(Number(name), { parent: fields[1] ?? 0, cpuS })
    } catch {
      // ended
    }
  }
  return found
}

/** CPU seconds of this process and of all below it. */
function cpuSeconds(): number {
  const all = processes()
  const isBelow = (id: number): boolean => {
    for (let at = id; at > 1; at = all.get(at)?.parent ?? 0) if (at === process.pid) return true
    return false
  }
  return [...all].reduce((sum, [id, { cpuS }]) => sum + (isBelow(id) ? cpuS : 0), 0)
}

const file = process.env.CPU_LOG

if (file !== undefined) {
  let before = 0
  beforeEach(() => {
    before = cpuSeconds()
  })
  afterEach(({ task }) => {
    const cpuS = Number((cpuSeconds() - before).toFixed(2))
    appendFileSync(file, `${JSON.stringify({ file: task.file.name, test: task.name, cpuS })}\n`)
  })
}
