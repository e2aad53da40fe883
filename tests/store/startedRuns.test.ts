import { describe, expect, test } from 'vitest'
import { forgetStartedRuns, startedRuns } from '../../src/store/startedRuns'

const KEY = 'yield/one'
const given = (value: number) => async () => ({ ok: true, value }) as const

/** Work that ends on request. */
function held() {
  let resolve: (value: number) => void = () => undefined
  const result = new Promise<number>((done) => {
    resolve = done
  })
  const work = async (signal: AbortSignal, onProgress: (share: number) => void) => {
    onProgress(0.5)
    const value = await result
    signal.throwIfAborted()
    onProgress(1)
    return { ok: true, value } as const
  }
  return { work, end: resolve }
}

describe('runs begun by a click', () => {
  test('keep the result, and the one before it', async () => {
    const runs = startedRuns<number>()
    expect(runs.of(KEY)).toEqual({ finished: null, before: null, progress: null, message: '' })
    await runs.start(KEY, given(1))
    await runs.start(KEY, given(2))
    expect(runs.of(KEY)).toEqual({ finished: 2, before: 1, progress: null, message: '' })
    expect(runs.of('yield/other').finished).toBeNull()
  })

  test('are forgotten with what they gave, and one that is going leaves nothing behind', async () => {
    const runs = startedRuns<number>()
    await runs.start(KEY, given(1))
    const { work, end } = held()
    const started = runs.start('yield/other', work)
    forgetStartedRuns()
    end(2)
    await started
    for (const key of [KEY, 'yield/other'])
      expect(runs.of(key)).toEqual({ finished: null, before: null, progress: null, message: '' })
  })

  test('say how far they are, and that one is going', async () => {
    const runs = startedRuns<number>()
    const { work, end } = held()
    const started = runs.start(KEY, work)
    expect(runs.of(KEY).progress).toBe(0.5)
    expect(runs.anyGoing()).toBe(true)
    end(3)
    await started
    expect(runs.of(KEY)).toMatchObject({ finished: 3, progress: null })
    expect(runs.anyGoing()).toBe(false)
  })

  test('a cancelled one and a failed one leave the result before, and say why there is no new one', async () => {
    const runs = startedRuns<number>()
    await runs.start(KEY, given(1))
    const { work, end } = held()
    const started = runs.start(KEY, work)
    runs.cancel(KEY)
    end(2)
    await started
    expect(runs.of(KEY)).toEqual({ finished: 1, before: null, progress: null, message: 'Cancelled.' })
    await runs.start(KEY, () => Promise.reject(new Error('no room')))
    expect(runs.of(KEY)).toMatchObject({ finished: 1, progress: null, message: 'The run failed: no room' })
  })

  test.each(['cancelled', 'done'])('progress that arrives once a run is %s changes nothing', async (how) => {
    const runs = startedRuns<number>()
    const { work, end } = held()
    let late: (share: number) => void = () => undefined
    const started = runs.start(KEY, (signal, onProgress) => {
      late = onProgress
      return work(signal, onProgress)
    })
    if (how === 'cancelled') runs.cancel(KEY)
    late(0.6)
    expect(runs.of(KEY).progress).toBe(how === 'cancelled' ? 0.5 : 0.6)
    end(2)
    await started
    late(0.9)
    expect(runs.of(KEY).progress).toBeNull()
    expect(runs.anyGoing()).toBe(false)
  })

  test('a refusal takes the place of the result before', async () => {
    const runs = startedRuns<number>()
    await runs.start(KEY, given(1))
    await runs.start(KEY, async () => ({ ok: false, message: 'guides no mode' }))
    expect(runs.of(KEY)).toMatchObject({ finished: null, progress: null, message: 'guides no mode' })
  })

  test('one that was given up for a newer one of its key changes nothing any more', async () => {
    const runs = startedRuns<number>()
    const old = held()
    const started = runs.start(KEY, old.work)
    const newer = held()
    const next = runs.start(KEY, newer.work)
    old.end(1)
    await started
    expect(runs.of(KEY)).toMatchObject({ finished: null, progress: 0.5, message: '' })
    newer.end(2)
    await next
    expect(runs.of(KEY)).toMatchObject({ finished: 2, progress: null })
  })
})
