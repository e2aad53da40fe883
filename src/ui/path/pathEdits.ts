// Edits of the optical path as the screens offer them, each with the reason where it cannot be made.

import { sequenceIssues } from '../../analysis/path/vector/sequence'
import { rowLenses } from '../../analysis/proposals/rowLenses'
import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  moveGuide,
  relayToGap,
  removeGuide,
} from '../../model/designs/chainEdits'
import { valueText } from '../../model/quantity/quantityWords'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { LensEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'

export type ChainEdit = (chain: ChainElement[]) => void

export interface PathEdit {
  readonly id: 'stub' | 'chip' | 'relay' | 'no-relay' | 'back' | 'on' | 'remove'
  readonly label: string
  /** Null where it cannot be made; `why` then says the reason. */
  readonly edit: ChainEdit | null
  readonly why: string
  /** Lenses to choose from when the edit is made, those of the catalogue among them; empty where none are chosen. */
  readonly lenses: readonly LensEntry[]
}

const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`

/** Every edit for the element at a place of the path; those that the sequence forbids have no `edit`. */
export function pathEdits(
  project: Project,
  { chain }: Pick<Candidate, 'chain'>,
  at: number,
): readonly PathEdit[] {
  const kind = chain[at]?.kind
  const offered = (
    id: PathEdit['id'],
    label: string,
    edit: ChainEdit | null,
    missing: string,
    lenses: PathEdit['lenses'] = [],
  ): PathEdit => {
    if (edit === null) return { id, label, edit: null, why: missing, lenses }
    const tried = structuredClone(chain) as ChainElement[]
    edit(tried)
    const [issue] = sequenceIssues(tried, project, [])
    return issue === undefined
      ? { id, label, edit, why: '', lenses }
      : { id, label, edit: null, why: sentence(issue.message), lenses }
  }
  const chip = project.converters.find((each) => each.kind === 'taper chip')
  const gas = project.media.find((each) => each.state === 'gas')
  const filling = project.media.find((each) => each.state === 'adhesive') ?? project.media[0]
  const { requirements } = project
  const inRow = requirements.channels > 1
  const pool = inRow ? rowLenses(project.lenses, requirements) : project.lenses
  const [lens1, lens2] = pool
  const fibre = project.fibres[1] ?? project.fibres[0]
  const movable = (position: number) =>
    chain[position]?.kind === 'stub' || chain[position]?.kind === 'taper chip'
  const insertions = () => [
    offered(
      'stub',
      'Add spliced stub',
      fibre === undefined ? null : (all) => insertStub(all, at, fibre.id),
      'Needs a fibre in Parts.',
    ),
    offered(
      'chip',
      'Insert SSC chip',
      chip === undefined || filling === undefined
        ? null
        : (all) => insertTaperChip(all, at, chip.id, filling.id, project.requirements),
      'Needs an SSC chip and a medium in Parts.',
    ),
  ]
  switch (kind) {
    case 'fibre':
      return [...insertions(), offered('remove', 'Remove fibre', null, 'A path starts with a fibre.')]
    case 'stub':
    case 'taper chip':
      return [
        ...insertions(),
        offered(
          'back',
          'Move towards the fibre',
          movable(at - 2) ? (all) => moveGuide(all, at, -1) : null,
          'No stub or SSC chip before it.',
        ),
        offered(
          'on',
          'Move towards the chip',
          movable(at + 2) ? (all) => moveGuide(all, at, 1) : null,
          'No stub or SSC chip after it.',
        ),
        offered(
          'remove',
          kind === 'stub' ? 'Remove stub and its splice' : 'Remove SSC chip and its gap',
          (all) => removeGuide(all, at),
          '',
        ),
      ]
    case 'facet':
      return [offered('remove', 'Remove facet', null, 'A path ends at a chip facet.')]
    case 'gap':
      return [
        offered(
          'relay',
          'Insert two-lens relay',
          lens1 === undefined || gas === undefined
            ? null
            : (all) => gapToRelay(all, at, gas.id, lens1.id, (lens2 ?? lens1).id, project.requirements),
          gas === undefined || !inRow
            ? 'Needs a lens and a gas in Parts.'
            : `No lens array is listed for a pitch of ${valueText(requirements.pitch)}. Fan the channels out first.`,
          pool,
        ),
        offered('remove', 'Remove gap', null, 'Two waveguides need a joint between them.'),
      ]
    case 'relay':
      return [offered('no-relay', 'Remove relay', (all) => relayToGap(all, at, project.requirements), '')]
    case 'splice':
      return [offered('remove', 'Remove splice', null, 'Two waveguides need a joint between them.')]
    default:
      return []
  }
}
