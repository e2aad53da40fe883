import { describe, expect, test } from 'vitest'
import { runYield } from '../../src/analysis/index'
import { yieldPlan } from '../../src/analysis/yield/runYield'
import { type CrewMember, pageMember } from '../../src/jobs/crewMember'
import { crewSize, type RunOptions, runYieldCrew } from '../../src/jobs/yieldClient'
import { demoProject } from '../../src/model/index'
import type { Project } from '../../src/model/schema/project'

/** The demo with two toleranced offsets alone: the ranking takes the time of the tolerances that it ranks. */
const project = ((): Project => {
  const whole = demoProject()
  const chain = whole.candidates.find(({ id }) => id === 'high-na-bonded')?.chain ?? []
  const offsets = chain.flatMap((element) =>
    element.kind === 'gap' ? [element.offsetX, element.offsetY] : [],
  )
  const kept = new Set<unknown>(offsets)
  const strip = (value: unknown): void => {
    if (typeof value !== 'object' || value === null || kept.has(value)) return
    if ('tolerance' in value) value.tolerance = undefined
    for (const each of Object.values(value)) strip(each)
  }
  strip(whole)
  return whole
})()
const OPTIONS = { samples: 36_000, seed: 11 } // three rounds
const plan = yieldPlan(project, 'high-na-bonded', OPTIONS)
const whole = runYield(project, 'high-na-bonded', OPTIONS)
const expected = () => whole

function run(size: number, hire: () => CrewMember, more: Partial<RunOptions> = {}) {
  return runYieldCrew(project, plan, {
    signal: new AbortController().signal,
    onProgress: () => undefined,
    size,
    newMember: hire,
    fallbackMember: pageMember,
    ...more,
  })
}

/** A member that does its first `jobs` jobs and then fails permanently. */
function shortLived(jobs: number): CrewMember {
  const inner = pageMember()
  let left = jobs
  return {
    ...inner,
    blocks: async (first, end) => {
      if (left-- <= 0) throw new Error('the worker died')
      return inner.blocks(first, end)
    },
  }
}

describe('a crew', () => {
  test.each([1, 3])('of %i gives the result of the plain run to the last bit', async (size) => {
    expect(await run(size, pageMember)).toEqual(expected())
  })

  test('reports its progress, rising to 1', async () => {
    const seen: number[] = []
    await run(2, pageMember, { onProgress: (share) => seen.push(share) })
    expect(seen).toEqual([...seen].sort((a, b) => a - b))
    // Only the last of the three rounds ends the work.
    expect(seen.filter((share) => share < 1).length).toBe(seen.length - 1)
    expect(seen.at(-1)).toBe(1)
  })

  test('stops early at the same milestone whatever its size', async () => {
    const early = { samples: 1_000_000, seed: 3, stopAtDb: 0.06 }
    const single = runYield(project, 'high-na-bonded', early)
    const crew = await runYieldCrew(project, yieldPlan(project, 'high-na-bonded', early), {
      signal: new AbortController().signal,
      onProgress: () => undefined,
      size: 3,
      newMember: pageMember,
      fallbackMember: pageMember,
    })
    expect(single.stoppedEarly).toBe(true)
    expect(crew).toEqual(single)
  })

  test('cancelled in the middle rejects and gives nothing', async () => {
    const controller = new AbortController()
    const running = run(2, pageMember, {
      signal: controller.signal,
      onProgress: () => controller.abort(),
    })
    await expect(running).rejects.toMatchObject({ name: 'AbortError' })
  })
})

describe('a member that dies', () => {
  test('is replaced once, and the result is the same', async () => {
    let hired = 0
    const result = await run(2, () => (++hired === 2 ? shortLived(1) : pageMember()))
    expect(result).toEqual(expected())
    expect(hired).toBe(3)
  })

  test('twice is reported', async () => {
    await expect(run(1, () => shortLived(1))).rejects.toThrow('the worker died')
  })

  test('before it is prepared is replaced by the page', async () => {
    const blocked = (): CrewMember => ({
      ...pageMember(),
      prepare: () => Promise.reject(new Error('workers are blocked')),
    })
    expect(await run(2, blocked)).toEqual(expected())
  })
})

test('a candidate that cannot be computed is refused before anybody is hired', async () => {
  const broken = demoProject()
  broken.candidates[1]?.chain.pop()
  const running = runYieldCrew(broken, plan, {
    signal: new AbortController().signal,
    onProgress: () => undefined,
    size: 1,
    newMember: () => {
      throw new Error('hired')
    },
    fallbackMember: pageMember,
  })
  await expect(running).rejects.toThrow('the path')
})

test('the crew leaves a core to the page where there are more than two', () => {
  expect([1, 2, 4, 16].map(crewSize)).toEqual([1, 2, 3, 8])
})
