// What can be put into the path behind an element, or taken out of it. What cannot be built says why.

import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  relayToGap,
  removeGuide,
} from '../../model/designs/chainEdits'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { selectElement } from '../../store/view'
import { Menu, type MenuItem } from '../../ui/controls/Menu'

type ChainEdit = (chain: ChainElement[]) => void

/** The entries for the element at a place of the path. */
function entriesOf(project: Project, design: Candidate, at: number): readonly MenuItem[] {
  const element = design.chain[at]
  const chip = project.converters.find((each) => each.kind === 'taper chip')
  const gas = project.media.find((each) => each.state === 'gas')
  const filling = project.media.find((each) => each.state === 'adhesive') ?? project.media[0]
  const [lens1, lens2] = project.lenses
  const fibre = project.fibres[1] ?? project.fibres[0]
  const entry = (id: string, label: string, recipe: ChainEdit | null, why: string): MenuItem => ({
    id,
    label,
    disabled: recipe === null,
    ...(recipe === null ? { note: why } : {}),
    onChoose: () => {
      if (recipe !== null) editChain(design.id, recipe)
    },
  })
  switch (element?.kind) {
    case 'fibre':
    case 'stub':
    case 'taper chip': {
      const removal = entry(
        'remove',
        element.kind === 'stub' ? 'Remove stub and its splice' : 'Remove SSC chip and its gap',
        (chain) => removeGuide(chain, at),
        '',
      )
      return [
        ...(element.kind === 'taper chip'
          ? []
          : [
              entry(
                'stub',
                'Add spliced stub',
                fibre === undefined ? null : (chain) => insertStub(chain, at, fibre.id),
                'Needs a fibre in Parts.',
              ),
            ]),
        entry(
          'chip',
          'Insert SSC chip',
          chip === undefined || filling === undefined
            ? null
            : (chain) => insertTaperChip(chain, at, chip.id, filling.id),
          'Needs an SSC chip and a medium in Parts.',
        ),
        ...(element.kind === 'fibre'
          ? []
          : [
              {
                ...removal,
                onChoose: () => {
                  removal.onChoose()
                  selectElement('')
                },
              },
            ]),
      ]
    }
    case 'gap':
      return [
        entry(
          'relay',
          'Insert two-lens relay',
          lens1 === undefined || gas === undefined
            ? null
            : (chain) => gapToRelay(chain, at, gas.id, lens1.id, (lens2 ?? lens1).id),
          'Needs a lens and a gas in Parts.',
        ),
      ]
    case 'relay':
      return [entry('no-relay', 'Remove relay', (chain) => relayToGap(chain, at), '')]
    default:
      return []
  }
}

export function PathActions({
  project,
  design,
  at,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly at: number
}) {
  const entries = entriesOf(project, design, at)
  if (entries.length === 0) return null
  return (
    <Menu className="subtle" entries={entries} align="end">
      Change path <span aria-hidden="true">▾</span>
    </Menu>
  )
}
