// What becomes of the open project in this browser: when it is written, what is said of it, and what is brought back.

import { beforeAll, beforeEach, describe, expect, onTestFinished, test } from 'vitest'
import { demoProject, emptyProject, parseProject } from '../../../src/model'
import type { Project } from '../../../src/model/schema/project'
import { markKept } from '../../../src/store/files/starting'
import { loadReadBack } from '../../../src/store/readBack'
import type { SaveState } from '../../../src/store/saving/saveState'
import { startSaving } from '../../../src/store/saving/startSaving'
import { editProject, workbench } from '../../../src/store/workbench'
import { type HandClock, handClock, settled } from '../support/handClock'
import { type HandPage, type HandStorage, handLocks, handPage, handStorage } from '../support/handStorage'

beforeAll(async () => {
  await loadReadBack()
  await import('../../../src/model/project/parseProject') // later imports of it are then done in the turn they begin in
})

const project = () => workbench.getState().project
const rename = (name: string) =>
  editProject((draft) => {
    draft.name = name
  })
const named = (name: string): Project => ({ ...demoProject(), name })
const nameIn = (kept: unknown) => parseProject(JSON.parse(JSON.stringify(kept))).name

beforeEach(() => {
  workbench.getState().replaceProject(demoProject())
})

interface Tab {
  readonly states: SaveState[]
  readonly page: HandPage
  readonly clock: HandClock
  readonly storage: HandStorage
  readonly state: () => SaveState | undefined
  readonly close: () => void
}

async function openTab(
  storage = handStorage(),
  { locks = handLocks(), settle = () => {} } = {},
): Promise<Tab> {
  const states: SaveState[] = []
  const [page, clock] = [handPage(), handClock()]
  const tell = (state: SaveState) => {
    states.push(state)
  }
  const close = startSaving({ projects: storage, locks, clock, page, tell, settle, restored: () => {} })
  onTestFinished(close)
  await loaded()
  return { states, page, clock, storage, state: () => states.at(-1), close }
}

/** The reader is imported once more in here, which takes turns of the event loop. */
async function loaded(): Promise<void> {
  for (let turn = 0; turn < 5; turn++) {
    await new Promise((resolve) => setImmediate(resolve))
    await settled()
  }
}

describe('the open project', () => {
  test('is written at once after a quiet time', async () => {
    const { storage, clock, state } = await openTab()
    rename('Renamed')
    expect(state()).toBe('saving')
    await clock.move(0)
    expect(nameIn(storage.kept)).toBe('Renamed')
    expect(state()).toBe('saved')
  })

  test('reaches storage at least every 2 s while it is edited without a pause', async () => {
    const { storage, clock } = await openTab()
    let oldest = 0
    for (let edit = 1; edit <= 300; edit++) {
      rename(`Edit ${edit}`)
      await clock.move(50)
      const held = storage.kept === undefined ? 0 : Number(nameIn(storage.kept).slice('Edit '.length))
      oldest = Math.max(oldest, 50 * (edit - held))
    }
    expect(oldest).toBeLessThanOrEqual(2000)
    // Nor is every edit written: a drag makes sixty of them a second.
    expect(storage.writes.length).toBeLessThan(100)
  })

  test('is written no more often than a slow storage allows, and in the end in its final state', async () => {
    const { storage, clock } = await openTab()
    for (let edit = 1; edit <= 100; edit++) {
      storage.behaviour = 'never'
      rename(`Edit ${edit}`)
      await clock.move(100)
      if (edit % 4 === 0) storage.answer()
    }
    storage.answer()
    await clock.move(5000)
    expect(nameIn(storage.kept)).toBe('Edit 100')
    expect(storage.writes.length).toBeLessThan(20)
  })

  test('is written again 1.5 s after a write that took two, no sooner and no later', async () => {
    const { storage, clock } = await openTab()
    storage.behaviour = 'never'
    rename('First')
    await clock.move(2000)
    storage.answer()
    await settled()
    rename('Second')
    await clock.move(1400)
    expect(nameIn(storage.kept)).toBe('First')
    await clock.move(100)
    expect(nameIn(storage.kept)).toBe('Second')
  })

  test('is not written before anybody has changed it, whatever the page does', async () => {
    const { storage, page, clock } = await openTab()
    page.hide()
    expect(page.leave()).toBe(false)
    await clock.move(10_000)
    expect(storage.writes).toEqual([])
  })

  test.each(['hide', 'leave'] as const)(
    'is handed over before the page is gone, with the text of its field: %s',
    async (event) => {
      const { storage, page, clock } = await openTab(handStorage(), {
        settle: () => rename('Still in the field'),
      })
      rename('A')
      await clock.move(0)
      rename('B')
      page[event]()
      await settled() // no time passes: the page has no more of it
      expect(nameIn(storage.kept)).toBe('Still in the field')
    },
  )

  test('that could not be read back is not written, and not said to be saved', async () => {
    const { storage, clock, states, state } = await openTab()
    workbench.setState({ project: { ...demoProject(), seed: Number.NaN } })
    await clock.move(3000)
    expect(storage.writes).toEqual([])
    expect(states).not.toContain('saved')
    expect(state()).toBe('unreadable')
    workbench.getState().replaceProject(named('In order'))
    await clock.move(3000)
    expect([state(), nameIn(storage.kept)]).toEqual(['saved', 'In order'])
  })
})

describe('storage', () => {
  test('that never answers is reported within 5 s of the start, and what it held comes when it does', async () => {
    const storage = handStorage(named('Last session'))
    storage.behaviour = 'never'
    const { clock, state } = await openTab(storage)
    await clock.move(5000)
    expect(state()).toBe('silent')
    storage.answer()
    await loaded()
    expect([project().name, state()]).toEqual(['Last session', 'saved'])
  })

  test('that answers after somebody has begun to work loses neither project', async () => {
    const storage = handStorage(named('Last session'))
    storage.behaviour = 'never'
    const { clock } = await openTab(storage)
    await clock.move(5000)
    rename('Begun meanwhile')
    storage.answer()
    await loaded()
    await clock.move(5000)
    expect(project().name).toBe('Begun meanwhile')
    expect(nameIn(storage.kept)).toBe('Begun meanwhile')
    expect(storage.aside.map(({ reason, kept }) => [reason, nameIn(kept)])).toEqual([
      ['late', 'Last session'],
    ])
  })

  test('that stops answering is reported within 5 s of the change', async () => {
    const { storage, clock, state, page } = await openTab()
    rename('A')
    await clock.move(1000)
    storage.behaviour = 'never'
    rename('B')
    await clock.move(5000)
    expect(state()).toBe('silent')
    expect(page.leave()).toBe(true)
    storage.answer()
    await clock.move(0)
    expect([state(), nameIn(storage.kept)]).toEqual(['saved', 'B'])
  })

  test.each([
    ['full', new DOMException('', 'QuotaExceededError')],
    ['blocked', new DOMException('', 'SecurityError')],
  ] as const)('that is %s is reported, and the page asks before it is left', async (said, error) => {
    const { storage, clock, state, page } = await openTab()
    storage.behaviour = error
    expect(page.leave()).toBe(false)
    rename('Changed')
    await clock.move(3000)
    expect(state()).toBe(said)
    expect(page.leave()).toBe(true)
    markKept()
    expect(page.leave()).toBe(false)
    storage.behaviour = 'at once'
    rename('Once more')
    await clock.move(3000)
    expect([state(), nameIn(storage.kept)]).toEqual(['saved', 'Once more'])
    expect(page.leave()).toBe(false)
  })

  test('blocked from the start is reported at the start', async () => {
    const storage = handStorage()
    storage.behaviour = new DOMException('', 'SecurityError')
    expect((await openTab(storage)).state()).toBe('blocked')
  })
})

describe('the project of the last session', () => {
  test('is shown in place of the demo, and is no undo step', async () => {
    const { state } = await openTab(handStorage(named('Last session')))
    expect([project().name, state()]).toEqual(['Last session', 'saved'])
    expect(workbench.temporal.getState().pastStates).toEqual([])
  })

  test('that cannot be read is set aside with the reasons, and later saves leave it alone', async () => {
    const broken = { format: 'modeseam-project', version: 99, work: 'of a week' }
    const { storage, clock } = await openTab(handStorage(broken))
    rename('Something new')
    await clock.move(3000)
    expect(nameIn(storage.kept)).toBe('Something new')
    expect(storage.aside).toMatchObject([{ reason: 'unreadable', kept: broken }])
    expect(storage.aside[0]?.issues.join()).toContain('99')
  })

  test('stays where it is when it cannot be set aside', async () => {
    const broken = { work: 'of a week' }
    const storage = handStorage(broken)
    const setAside = async () => {
      throw new DOMException('', 'QuotaExceededError')
    }
    const { clock, state } = await openTab(Object.assign(storage, { setAside }))
    rename('Something new')
    await clock.move(3000)
    expect([storage.kept, state()]).toEqual([broken, 'full'])
  })
})

describe('a second tab', () => {
  test('waits, says so, and saves once the first is closed', async () => {
    const [storage, locks] = [handStorage(), handLocks()]
    const first = await openTab(storage, { locks })
    rename('By the first')
    await first.clock.move(0)
    const second = await openTab(storage, { locks })
    expect(second.state()).toBe('otherTab')
    await second.clock.move(10_000)
    expect(second.state()).toBe('otherTab')
    first.close()
    await loaded()
    expect(second.state()).toBe('saved')
    rename('By the second')
    await second.clock.move(0)
    expect([second.state(), nameIn(storage.kept)]).toEqual(['saved', 'By the second'])
  })

  test('shows what the first has saved meanwhile, where nothing was changed in it', async () => {
    const [storage, locks] = [handStorage(), handLocks()]
    const first = await openTab(storage, { locks })
    const second = await openTab(storage, { locks })
    storage.kept = named('Saved by the first') // in a store of its own, which two tabs share no more than this
    first.close()
    await loaded()
    expect([project().name, second.state()]).toEqual(['Saved by the first', 'saved'])
  })

  test('with changes of its own keeps them, and sets aside what the first has saved', async () => {
    const [storage, locks] = [handStorage(), handLocks()]
    const first = await openTab(storage, { locks })
    const second = await openTab(storage, { locks })
    expect(second.page.leave()).toBe(false)
    first.close()
    storage.kept = { ...emptyProject(), name: 'Saved by the first' }
    rename('Changed in the second')
    expect(second.page.leave()).toBe(true)
    await loaded()
    await second.clock.move(3000)
    expect(nameIn(storage.kept)).toBe('Changed in the second')
    expect(storage.aside.map(({ reason, kept }) => [reason, nameIn(kept)])).toEqual([
      ['other tab', 'Saved by the first'],
    ])
  })
})
