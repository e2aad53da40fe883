import { describe, expect, test, vi } from 'vitest'
import { runModeJob } from '../../src/jobs/modeSolveClient'
import { newCrossSection } from '../../src/model/parts/newCrossSection'

const request = (widthUm: number) => ({
  section: newCrossSection(widthUm, 0.2),
  wavelengthUm: 1.6537,
  fibre: null,
  cells: { x: 48, y: 48 },
})

describe('solving off the page, where there are no workers', () => {
  test('runs here, reports its progress, and answers', async () => {
    const onProgress = vi.fn()
    const outcome = await runModeJob('solve', request(0.8), {
      signal: new AbortController().signal,
      onProgress,
    })
    expect(outcome.ok && outcome.value.effectiveIndex).toBeGreaterThan(1.4429)
    expect(onProgress).toHaveBeenCalled()
  })

  test('says in words what cannot be solved', async () => {
    const bad = request(0.8)
    bad.section.cores[0]!.index = { kind: 'value', index: { value: 1.2, unit: '1', provenance: 'estimate' } }
    const outcome = await runModeJob('solve', bad, { signal: new AbortController().signal })
    expect(outcome).toEqual({
      ok: false,
      message: expect.stringContaining('index of core 1 is 1.2; must be above 1.44276, the'),
    })
  })

  test('ends with the signal’s reason when it is cancelled', async () => {
    const controller = new AbortController()
    const sweep = runModeJob(
      'sweep',
      { ...request(0.8), variable: { kind: 'width', coreId: null }, from: 0.6, to: 0.9, points: 20 },
      { signal: controller.signal, onProgress: () => controller.abort(new Error('enough')) },
    )
    await expect(sweep).rejects.toThrow('enough')
  })
})
