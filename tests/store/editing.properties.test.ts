// Whatever is done to the open project, and however wrong it is: what the store holds reads back as it is.

import fc from 'fast-check'
import { current } from 'immer'
import { beforeAll, describe, expect, test } from 'vitest'
import { FAMILIES } from '../../src/analysis/proposals/families'
import { newDesign, writeDesign } from '../../src/analysis/proposals/proposeProject'
import { demoProject, emptyProject, parseProject, projectText } from '../../src/model'
import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  relayToGap,
  removeGuide,
} from '../../src/model/designs/chainEdits'
import { addParts } from '../../src/model/parts/addParts'
import {
  newFacet,
  newFibre,
  newLens,
  newLensedTip,
  newMedium,
  newTaperChip,
} from '../../src/model/parts/newParts'
import { designOf, keepRevision, restoredProject } from '../../src/model/project/revisions'
import type { Quantity } from '../../src/model/quantity/quantity'
import { scaleTolerance } from '../../src/model/quantity/quantityAt'
import type { Candidate } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'
import { freeId } from '../../src/model/words/freeName'
import { loadReadBack } from '../../src/store/readBack'
import { beginGesture, endGesture, redo, tryEdit, undo, workbench } from '../../src/store/workbench'
import { signedLogUniform, text } from '../support/arbitrary'
import { measurements, projects, revisions } from '../support/arbitraryProject'

beforeAll(loadReadBack)

const project = () => workbench.getState().project
const pick = <T>(list: readonly T[], at: number): T | undefined => list[at % Math.max(1, list.length)]

/** What an edit is done with: anything a user could type or drop, and places to put it. */
const hands = fc.record({
  at: fc.nat(50),
  position: fc.nat(50),
  number: fc.oneof(
    signedLogUniform(1e-12, 1e12),
    fc.constantFrom(Number.NaN, Infinity, -Infinity, 1e308, 0, 1, 10),
  ),
  words: fc.oneof(text(0, 300), fc.constantFrom('', 'x'.repeat(201), 'y'.repeat(20_001))),
  measurement: measurements,
  revision: revisions,
  parts: projects,
})
type Hands = typeof hands extends fc.Arbitrary<infer T> ? T : never

function quantitiesOf(value: unknown): Quantity[] {
  if (typeof value !== 'object' || value === null) return []
  if ('provenance' in value && 'unit' in value) return [value as Quantity]
  return Object.values(value).flatMap(quantitiesOf)
}

const onCandidate = (draft: Project, at: number, change: (candidate: Candidate) => void) => {
  const candidate = pick(draft.candidates, at)
  if (candidate !== undefined) change(candidate)
}

type Edit = (draft: Project, hands: Hands) => unknown

/** What screens do, with whatever is in hand. */
const EDITS: Readonly<Record<string, Edit>> = {
  rename: (draft, { words }) => {
    draft.name = words
  },
  remark: (draft, { words, at }) => onCandidate(draft, at, (own) => Object.assign(own, { remark: words })),
  'set a number': (draft, { at, number }) => {
    const own = pick(quantitiesOf({ ...draft, measurements: [], revisions: [] }), at * 7)
    if (own !== undefined) own.value = number
  },
  'scale a tolerance': (draft, { at, number }) => {
    const own = pick(quantitiesOf(draft.candidates), at * 3)
    if (own !== undefined) scaleTolerance(own, number)
  },
  'add parts': (draft, { parts }) => addParts(draft, parts),
  'new parts': (draft) => {
    draft.fibres.push(newFibre(freeId('fibre', draft.fibres)))
    draft.facets.push(newFacet(freeId('facet', draft.facets)))
    draft.media.push(newMedium(freeId('medium', draft.media)))
    draft.lenses.push(newLens(freeId('lens', draft.lenses)))
    draft.converters.push(newLensedTip(freeId('tip', draft.converters)))
    draft.converters.push(newTaperChip(freeId('taper', draft.converters)))
  },
  'delete a part that may be in use': (draft, { at }) =>
    draft.fibres.splice(at % (draft.fibres.length + 1), 1),
  'delete a medium': (draft, { at }) => draft.media.splice(at % (draft.media.length + 1), 1),
  'new candidate': (draft, { at }) => {
    // Lens pairs take a search; the other families are drafted as quickly as any edit.
    const family = pick(
      FAMILIES.filter(({ id }) => id !== 'relay'),
      at,
    )
    const found = family === undefined ? null : newDesign(current(draft) as Project, family)
    if (found === null || 'reason' in found) return
    writeDesign(draft, found)
  },
  'copy a candidate and keep its id': (draft, { at }) =>
    onCandidate(draft, at, (own) => {
      draft.candidates.push(own)
    }),
  'stub, taper chip, relay and back': (draft, { at, position }) =>
    onCandidate(draft, at, ({ chain }) => {
      const [fibre, converter, medium, lens] = [
        draft.fibres,
        draft.converters,
        draft.media,
        draft.lenses,
      ].map((list: readonly { readonly id: string }[]) => pick(list, position)?.id ?? 'gone') as [
        string,
        string,
        string,
        string,
      ]
      if (position % 5 === 0) insertStub(chain, position % (chain.length + 1), fibre)
      if (position % 5 === 1) insertTaperChip(chain, position % (chain.length + 1), converter, medium)
      if (position % 5 === 2) removeGuide(chain, position % (chain.length + 1))
      if (position % 5 === 3) gapToRelay(chain, position % (chain.length + 1), medium, lens, lens)
      if (position % 5 === 4) relayToGap(chain, position % (chain.length + 1))
    }),
  'mount and array of another': (draft, { at, parts }) =>
    onCandidate(draft, at, (own) => {
      const other = pick(parts.candidates, at)
      Object.assign(own, { mount: other?.mount, array: other?.array })
    }),
  'cross-section of another': (draft, { at, parts }) => {
    const own = pick(draft.facets, at)
    if (own !== undefined) own.crossSection = pick(parts.facets, at)?.crossSection
  },
  'take readings': (draft, { measurement }) => {
    draft.measurements.push({ ...measurement, id: freeId('measurement', draft.measurements) })
  },
  'keep a revision': (draft, { words }) => {
    keepRevision(draft, designOf(project()), { name: words, date: '2026-03-14', remark: words })
  },
  'a revision that stands there already': (draft, { revision }) => {
    draft.revisions = [...(draft.revisions ?? []), revision]
  },
  'review remarks': (draft, { words, at }) => {
    draft.review = { ...draft.review, remarks: { [`section-${at}`]: words }, reason: words }
  },
}

const steps = fc.array(
  fc.tuple(
    fc.constantFrom(...Object.keys(EDITS), 'undo', 'redo', 'restore', 'gesture', 'new project', 'open'),
    hands,
  ),
  { minLength: 1, maxLength: 6 },
)

/** Immer takes what a recipe returns for a new project. */
function doEdit(edit: Edit, given: Hands) {
  return tryEdit((draft) => {
    edit(draft, given)
  })
}

function step(name: string, given: Hands): void {
  const edit = EDITS[name]
  if (edit !== undefined) doEdit(edit, given)
  else if (name === 'undo') undo()
  else if (name === 'redo') redo()
  else if (name === 'new project') workbench.getState().replaceProject(emptyProject())
  else if (name === 'open') workbench.getState().replaceProject(given.parts)
  else if (name === 'gesture') {
    beginGesture()
    for (const value of [1, given.number, 2]) doEdit(EDITS['set a number']!, { ...given, number: value })
    endGesture()
  } else {
    const id = pick(project().revisions ?? [], given.at)?.id ?? ''
    const restored = restoredProject(project(), id)
    if (restored !== null) workbench.getState().replaceProject(restored)
  }
}

test('any sequence of edits leaves a project that reads back as the store holds it', () => {
  fc.assert(
    fc.property(steps, (sequence) => {
      workbench.getState().replaceProject(demoProject())
      for (const [name, given] of sequence) {
        step(name, given)
        expect(parseProject(JSON.parse(projectText(project()))), name).toEqual(project())
      }
    }),
    { numRuns: 20 },
  )
})

describe('an edit', () => {
  test('that could not be kept is refused with the reason, and is no undo step', () => {
    workbench.getState().replaceProject(demoProject())
    workbench.temporal.getState().clear()
    const before = project()
    const issues = tryEdit((draft) => {
      draft.facets[0]!.mfdX.value = Number.NaN
    })
    expect(issues[0]?.message).toMatch(/facets\[0\]\.mfdX/)
    expect(project()).toBe(before)
    expect(workbench.temporal.getState().pastStates).toEqual([])
  })

  test('of a project that is out of order already is taken, so that it can be put right', () => {
    const broken = structuredClone(demoProject())
    broken.facets[0]!.mfdX.value = -1
    workbench.getState().replaceProject(broken)
    const half = tryEdit((draft) => {
      draft.name = 'Still broken'
    })
    expect([half, project().name]).toEqual([[], 'Still broken'])
    tryEdit((draft) => {
      draft.facets[0]!.mfdX.value = 3
    })
    expect(parseProject(JSON.parse(projectText(project())))).toEqual(project())
  })

  test('that is in order is taken, whatever it is of', () => {
    workbench.getState().replaceProject(demoProject())
    for (const name of ['new parts', 'new candidate', 'take readings', 'keep a revision']) {
      const [given] = fc.sample(hands, { numRuns: 1, seed: 5 })
      const issues = doEdit(EDITS[name]!, { ...given!, words: 'As ordered' })
      expect(issues, name).toEqual([])
    }
    expect(project().revisions?.map((each) => each.name)).toEqual(['As ordered'])
    expect(project().measurements).toHaveLength(1)
  })
})
