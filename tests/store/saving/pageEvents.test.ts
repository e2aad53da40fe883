// The last moments of a page, with a document and a window that are controlled by the test.

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { BROWSER_PAGE } from '../../../src/store/saving/pageEvents'

let page: EventTarget & { visibilityState: DocumentVisibilityState }
let around: EventTarget
let heard: string[]
let isAsked: boolean
let stop: () => void

beforeEach(() => {
  page = Object.assign(new EventTarget(), { visibilityState: 'visible' as const })
  around = new EventTarget()
  vi.stubGlobal('document', page)
  vi.stubGlobal('window', around)
  heard = []
  isAsked = false
  stop = BROWSER_PAGE.watch({
    hidden: () => {
      heard.push('hidden')
    },
    leaving: () => {
      heard.push('leaving')
      return isAsked
    },
  })
})

afterEach(() => {
  vi.unstubAllGlobals()
})

const turn = (state: DocumentVisibilityState) => {
  page.visibilityState = state
  page.dispatchEvent(new Event('visibilitychange'))
}
/** Whether the browser would ask the person. */
const leave = () => !around.dispatchEvent(new Event('beforeunload', { cancelable: true }))

describe('a page', () => {
  test('that is hidden, by another tab or a minimised window, is reported, and one that is shown again is not', () => {
    turn('hidden')
    expect(heard).toEqual(['hidden'])
    turn('visible')
    expect(heard).toEqual(['hidden'])
  })

  test('that is unloaded by the browser is reported', () => {
    around.dispatchEvent(new Event('pagehide'))
    expect(heard).toEqual(['hidden'])
  })

  test.each([true, false])('that is left asks the person only if something would be lost: %s', (asked) => {
    isAsked = asked
    expect(leave()).toBe(asked)
    expect(heard).toEqual(['leaving'])
  })

  test('hears nothing more once the watching has ended', () => {
    stop()
    isAsked = true
    turn('hidden')
    around.dispatchEvent(new Event('pagehide'))
    expect(leave()).toBe(false)
    expect(heard).toEqual([])
  })
})
