import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { jobRunner, type ReportProgress } from '../../src/jobs/jobRunner'
import { WORKER_ENDED, WORKER_SILENT } from '../../src/jobs/workerLife'

interface Sent {
  readonly id: string
}

/** A worker as the page sees one: what is sent to it, what it says, and the lock of its life. */
class FakeWorker extends EventTarget {
  readonly sent: Sent[] = []
  terminated = false
  postMessage(message: Sent) {
    this.sent.push(message)
  }
  terminate() {
    this.terminated = true
  }
  says(data: unknown) {
    this.dispatchEvent(new MessageEvent('message', { data }))
  }
  answers(value: unknown) {
    this.says({ id: this.sent.at(-1)?.id, type: 'RAW', value })
  }
  start() {}
}

type Jobs = { readonly add: (input: number, report: ReportProgress) => Promise<number> }

let released = new Map<string, () => void>()
/** Ends what a test has started and does not wait for. */
let ending = new AbortController()
beforeEach(() => {
  released = new Map()
  ending = new AbortController()
  vi.stubGlobal('navigator', {
    locks: {
      request: (name: string, granted: () => void) =>
        new Promise<void>((resolve) => {
          released.set(name, () => {
            granted()
            resolve()
          })
        }),
    },
  })
})
afterEach(() => {
  ending.abort()
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

function runner(options?: { keepsWarm: boolean }) {
  const workers: FakeWorker[] = []
  const run = jobRunner<Jobs>(
    () => {
      const worker = new FakeWorker()
      workers.push(worker)
      return worker as unknown as Worker
    },
    async () => ({ add: async (input) => input + 100 }),
    options,
  )
  const start = () => run('add', 1, { signal: ending.signal })
  return { workers, run, start }
}

/** Lets everything happen that waits for nothing but its turn. */
const turns = async () => {
  for (let n = 0; n < 10; n++) await Promise.resolve()
}

describe('a job', () => {
  test('of a worker that is killed in the middle ends with a sentence, and the next one gets a new worker', async () => {
    const { workers, start } = runner()
    const running = start()
    workers[0]?.says({ life: 'one' })
    await turns()
    released.get('one')?.()
    await expect(running).rejects.toThrow(WORKER_ENDED)
    const again = start()
    expect(workers).toHaveLength(2)
    workers[1]?.says({ life: 'two' })
    await turns()
    workers[1]?.answers(7)
    expect(await again).toBe(7)
  })

  test('of a worker that is silent for too long ends with a sentence', async () => {
    vi.useFakeTimers()
    const { workers, start } = runner()
    const running = start()
    const refused = expect(running).rejects.toThrow(WORKER_SILENT)
    workers[0]?.says({ life: null })
    await vi.advanceTimersByTimeAsync(130_000)
    await refused
    expect(workers[0]?.terminated).toBe(true)
  })

  test('of a worker that was killed before it said anything is done by another after ten seconds', async () => {
    vi.useFakeTimers()
    const { workers, start } = runner()
    const running = start()
    await vi.advanceTimersByTimeAsync(9_900)
    expect(workers).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(200)
    expect(workers).toHaveLength(2)
    workers[1]?.says({ life: 'two' })
    await turns()
    workers[1]?.answers(7)
    expect(await running).toBe(7)
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, false])
  })

  test('is given to a worker that is slow to start, however many were started beside it', async () => {
    vi.useFakeTimers()
    const { workers, start } = runner()
    const running = start()
    await vi.advanceTimersByTimeAsync(31_000)
    expect(workers).toHaveLength(3)
    workers[0]?.says({ life: 'one' })
    await turns()
    workers[0]?.answers(7)
    expect(await running).toBe(7)
    expect(workers.map(({ terminated }) => terminated)).toEqual([false, true, true])
  })

  test('ends with a sentence where no worker ever says anything, and leaves none behind', async () => {
    vi.useFakeTimers()
    const { workers, start } = runner()
    const refused = expect(start()).rejects.toThrow(WORKER_SILENT)
    await vi.advanceTimersByTimeAsync(71_000)
    await refused
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, true, true])
  })

  test('that is cancelled while its worker starts ends that worker', async () => {
    const { workers, run } = runner()
    const cancel = new AbortController()
    const running = run('add', 1, { signal: cancel.signal })
    cancel.abort(new Error('given up'))
    await expect(running).rejects.toThrow('given up')
    expect(workers[0]?.terminated).toBe(true)
  })

  test('of a worker that cannot be loaded is done on the page, and its end is no failure then', async () => {
    const { workers, start } = runner()
    const running = start()
    workers[0]?.dispatchEvent(new Event('error'))
    expect(await running).toBe(101)
  })

  test('is given to the worker of the job before, but where that one ends with its job', async () => {
    for (const keepsWarm of [true, false]) {
      const { workers, start } = runner({ keepsWarm })
      const first = start()
      workers[0]?.says({ life: null })
      await turns()
      workers[0]?.answers(1)
      await first
      expect(workers[0]?.terminated).toBe(!keepsWarm)
      start().catch(() => undefined)
      expect(workers).toHaveLength(keepsWarm ? 1 : 2)
    }
  })

  test('is not given to a worker that died while it was idle', async () => {
    const { workers, start } = runner()
    const first = start()
    workers[0]?.says({ life: 'one' })
    await turns()
    workers[0]?.answers(1)
    await first
    released.get('one')?.()
    start().catch(() => undefined)
    expect(workers).toHaveLength(2)
  })
})
