// What of a relay is aligned on power, and in which order: a row for each lens and for the fibre side, first row first.

import { alignedMembers, alignOrder, MEMBER_NAMES } from '../../model/designs/alignOrder'
import { switchSetting, toggleRelayAxis } from '../../model/designs/stationTolerances'
import type { RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { Requirements } from '../../model/schema/requirements'
import { LENS_ALIGNED, RELAY_ALIGNED, type RelayMember } from '../../model/words/candidate'
import { editProject } from '../../store/workbench'

const GUIDE_LABELS = {
  offsetX: 'Offset x',
  offsetY: 'Offset y',
  offsetZ: 'Axial shift z',
  tiltX: 'Tilt x',
  tiltY: 'Tilt y',
  roll: 'Roll',
} as const
const LENS_LABELS = {
  offsetX: 'Decentre x',
  offsetY: 'Decentre y',
  offsetZ: 'Axial shift z',
  tiltX: 'Tilt x',
  tiltY: 'Tilt y',
} as const

interface Choice {
  readonly label: string
  /** Distinguishes it from the same axis of another member. */
  readonly name: string
  readonly isActive: boolean
  readonly toggle: (relay: RelayElement, requirements: Requirements) => void
}

/** The list with the axis taken in or out, in the order of `all`. */
function toggled<T extends string>(all: readonly T[], list: readonly T[] | undefined, axis: T): T[] {
  return all.filter((each) => (each === axis) !== (list ?? []).includes(each))
}

function choicesOf(relay: RelayElement, member: RelayMember): readonly Choice[] {
  if (member === 'guide') {
    return RELAY_ALIGNED.map((axis) => ({
      label: GUIDE_LABELS[axis],
      name: GUIDE_LABELS[axis],
      isActive: relay.aligned?.includes(axis) === true,
      toggle: (own, requirements) => toggleRelayAxis(own, axis, requirements),
    }))
  }
  return LENS_ALIGNED.map((axis) => ({
    label: LENS_LABELS[axis],
    name: `${sentenceCase(MEMBER_NAMES[member])} ${LENS_LABELS[axis].toLowerCase()}`,
    isActive: relay[member].aligned?.includes(axis) === true,
    toggle: (own) => {
      own[member].aligned = toggled(LENS_ALIGNED, own[member].aligned, axis)
    },
  }))
}

const sentenceCase = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

export function RelayAlignment({
  relay,
  find,
}: {
  readonly relay: RelayElement
  readonly find: (draft: Project) => RelayElement | undefined
}) {
  const order = alignOrder(relay)
  const edit = (recipe: (own: RelayElement, draft: Project) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own, draft)
    })
  // At an end the button does nothing and keeps the focus, which has moved there with it.
  const move = (at: number, by: -1 | 1) => {
    if (order[at + by] === undefined) return
    edit((own) => {
      const next = [...order]
      const [member] = next.splice(at, 1)
      if (member !== undefined) next.splice(at + by, 0, member)
      own.alignOrder = next
    })
  }
  const members = alignedMembers(relay)
  return (
    <div className="relay-alignment">
      <span className="quiet">Active alignment, in this order</span>
      <ol>
        {order.map((member, at) => (
          <li key={member} aria-label={sentenceCase(MEMBER_NAMES[member])}>
            <span>{sentenceCase(MEMBER_NAMES[member])}</span>
            <span className="align-choice">
              {choicesOf(relay, member).map(({ label, name, isActive, toggle }) => (
                <label key={name}>
                  <input
                    type="checkbox"
                    aria-label={`${name}, active alignment`}
                    checked={isActive}
                    onChange={() =>
                      edit((own, draft) =>
                        switchSetting(own, () => toggle(own, draft.requirements), draft.requirements),
                      )
                    }
                  />
                  {label}
                </label>
              ))}
            </span>
            <span className="moves">
              <button
                type="button"
                className="subtle"
                aria-label={`Align ${MEMBER_NAMES[member]} earlier`}
                aria-disabled={at === 0}
                onClick={() => move(at, -1)}
              >
                ↑
              </button>
              <button
                type="button"
                className="subtle"
                aria-label={`Align ${MEMBER_NAMES[member]} later`}
                aria-disabled={at === order.length - 1}
                onClick={() => move(at, 1)}
              >
                ↓
              </button>
            </span>
          </li>
        ))}
      </ol>
      {members.length > 0 && (
        <p className="quiet">
          Aligned: {members.map((member) => MEMBER_NAMES[member]).join(', then ')}, one at a time, with the
          others fixed. The values of aligned axes are measured from the optimum, and their ± is the residual
          misalignment.
        </p>
      )}
    </div>
  )
}
