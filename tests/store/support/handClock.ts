// A clock that moves only on request, and lets what it has woken finish.

import type { Clock } from '../../../src/store/saving/clock'

export interface HandClock extends Clock {
  /** Moves on, waking everything in the order of its time. */
  readonly move: (milliseconds: number) => Promise<void>
}

/** Lets promises that are settled already go on; many steps, because one leads to another. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < 50; turn++) await Promise.resolve()
}

export function handClock(): HandClock {
  let now = 0
  let waiting: { readonly at: number; readonly act: () => void }[] = []
  return {
    now: () => now,
    after: (milliseconds, act) => {
      const entry = { at: now + milliseconds, act }
      waiting.push(entry)
      return () => {
        waiting = waiting.filter((each) => each !== entry)
      }
    },
    move: async (milliseconds) => {
      const end = now + milliseconds
      await settled()
      for (;;) {
        const next = waiting.filter((each) => each.at <= end).sort((a, b) => a.at - b.at)[0]
        if (next === undefined) break
        waiting = waiting.filter((each) => each !== next)
        now = Math.max(now, next.at)
        next.act()
        await settled()
      }
      now = end
    },
  }
}
