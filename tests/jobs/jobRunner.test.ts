import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { jobRunner, type Tell } from '../../src/jobs/jobRunner'
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

type Jobs = { readonly add: (input: number, tell: Tell) => Promise<number> }

let released = new Map<string, () => void>()
beforeEach(() => {
  released = new Map()
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
  const start = () => run('add', 1, { signal: new AbortController().signal })
  return { workers, start }
}

describe('a job', () => {
  test('of a worker that is killed in the middle ends with a sentence, and the next one gets a new worker', async () => {
    const { workers, start } = runner()
    const running = start()
    workers[0]?.says({ life: 'one' })
    released.get('one')?.()
    await expect(running).rejects.toThrow(WORKER_ENDED)
    const again = start()
    expect(workers).toHaveLength(2)
    workers[1]?.answers(7)
    expect(await again).toBe(7)
  })

  test('of a worker that is silent for too long ends with a sentence', async () => {
    vi.useFakeTimers()
    const { workers, start } = runner()
    const running = start()
    const refused = expect(running).rejects.toThrow(WORKER_SILENT)
    await vi.advanceTimersByTimeAsync(130_000)
    await refused
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
      workers[0]?.answers(1)
      await first
      expect(workers[0]?.terminated).toBe(!keepsWarm)
      void start()
      expect(workers).toHaveLength(keepsWarm ? 1 : 2)
    }
  })

  test('is not given to a worker that died while it was idle', async () => {
    const { workers, start } = runner()
    const first = start()
    workers[0]?.says({ life: 'one' })
    workers[0]?.answers(1)
    await first
    released.get('one')?.()
    void start()
    expect(workers).toHaveLength(2)
  })
})
