import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { keepDraft, keptDraft } from '../../../src/store/saving/drafts'

let kept = new Map<string, string>()
beforeEach(() => {
  kept = new Map()
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => void kept.set(key, text),
    removeItem: (key: string) => void kept.delete(key),
  })
})
afterEach(() => vi.unstubAllGlobals())

test('a text is there again until it is given up, each by its name', () => {
  keepDraft('readings', 'A1, 0, 1.25')
  keepDraft('table', 'x')
  expect([keptDraft('readings'), keptDraft('table'), keptDraft('other')]).toEqual(['A1, 0, 1.25', 'x', null])
  keepDraft('readings', null)
  expect(keptDraft('readings')).toBeNull()
  expect(kept.size).toBe(1)
})

test('of a text that has grown too long no old part stays behind', () => {
  keepDraft('table', 'short')
  keepDraft('table', 'x'.repeat(200_001))
  expect(keptDraft('table')).toBeNull()
})

test('storage that is blocked or full is no matter', () => {
  const refuse = () => {
    throw new DOMException('blocked', 'SecurityError')
  }
  vi.stubGlobal('localStorage', { getItem: refuse, setItem: refuse, removeItem: refuse })
  keepDraft('table', 'x')
  expect(keptDraft('table')).toBeNull()
})
