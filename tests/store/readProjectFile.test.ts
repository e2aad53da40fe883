import { afterEach, describe, expect, test, vi } from 'vitest'
import { projectJobs } from '../../src/jobs/projectJobs'
import { demoProject, projectText } from '../../src/model/index'
import { readProjectFile } from '../../src/store/files/reading'

afterEach(() => vi.unstubAllGlobals())

const demo = projectText(demoProject()).trimEnd()
const large = `${demo.slice(0, -1)},"more":"${'x'.repeat(600_000)}"}`

describe('a project file', () => {
  test('that is small is read at once', async () => {
    const read = await readProjectFile(new File([demo], 'demo.json'))
    expect(read.ok && read.value.name).toBe(demoProject().name)
  })

  test('that is large is read all the same where there are no workers', async () => {
    const read = await readProjectFile(new File([large], 'large.json'))
    expect(read.ok && read.value.name).toBe(demoProject().name)
  })

  test('that is large reports its progress while it is counted and checked, never backwards', async () => {
    const shares: number[] = []
    const read = await projectJobs.read(
      new Blob([large.replace('x'.repeat(600_000), 'x,'.repeat(4_000_000))]),
      (share) => shares.push(share),
    )
    expect(read.ok && read.value.name).toBe(demoProject().name)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
    expect(new Set(shares).size).toBeGreaterThan(8)
    expect(shares.at(-1)).toBeLessThan(1)
  })

  test('that is large can be given up between two steps', async () => {
    const tell = (share: number) => {
      if (share > 0.3) throw new DOMException('given up', 'AbortError')
    }
    await expect(projectJobs.read(new Blob([large]), tell)).rejects.toThrow('given up')
  })

  test('that is large goes to a worker', async () => {
    const sent: unknown[] = []
    vi.stubGlobal(
      'Worker',
      class extends EventTarget {
        constructor() {
          super()
          setTimeout(() => this.dispatchEvent(new MessageEvent('message', { data: { life: null } })))
        }
        postMessage(message: unknown) {
          sent.push(message)
          setTimeout(() => {
            const { id } = message as { id: string }
            const value = { ok: false, issues: [], warnings: [] }
            this.dispatchEvent(new MessageEvent('message', { data: { id, type: 'RAW', value } }))
          })
        }
        terminate() {}
        start() {}
      },
    )
    const read = await readProjectFile(new File([large], 'large.json'))
    expect(read.ok).toBe(false)
    expect(sent).toHaveLength(1)
  })
})
