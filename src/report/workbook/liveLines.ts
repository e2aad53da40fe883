// The lines of a budget: which have a closed form in cells, which are carried, and what that means for the worst case.

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import type { LineModel } from '../../analysis/path/vector/elementModels'
import type { LineKind } from '../../analysis/results/evaluation'
import { jointWords } from '../../model/designs/jointNames'
import { followsAligning, JOINT_PARTS, type JointLosses, type LiveJoint } from './jointRows'
import { atEnd, tolerancedSlots } from './liveInputs'
import { differenceTerm, type FormulaTerm, sumTerm } from './term'

/** The gaps that are computed, and so have a closed form. */
export function liveJoints({ candidate, joins, nominal }: CompiledCandidate): readonly LiveJoint[] {
  const gaps = joins.flatMap((join): readonly Omit<LiveJoint, 'number'>[] => {
    const view = join.view?.(nominal)
    const element = candidate.chain.find(({ id }) => id === view?.elementId)
    if (view === undefined || element?.kind !== 'gap' || element.typedLoss !== undefined) return []
    const face = (side: 'near' | 'far') =>
      join.lines.find(({ id }) => id === `${element.id}/fresnel ${side}`)?.lossDb ?? (() => 0)
    return [{ join, element, view, nearFaceLossDb: face('near'), farFaceLossDb: face('far') }]
  })
  return gaps.map((gap, i) => ({ ...gap, number: i + 1 }))
}

/** A line as formula; `note` says where it only carries a value. */
export interface LiveLine {
  readonly line: LineModel
  readonly term: FormulaTerm
  readonly note: string
}

export const CARRIED = 'fixed value: it has no closed form here and does not follow the inputs'

/** Lines of a joint that its closed form gives; what fields add to it is not among them. */
export const FORMULA_KINDS: ReadonlySet<LineKind> = new Set([...JOINT_PARTS, 'combined', 'fresnel'])

export function jointLine(line: LineModel, losses: JointLosses): LiveLine {
  const mismatch = losses.part('mode mismatch')
  const alone = (part: (typeof JOINT_PARTS)[number]) => differenceTerm(losses.part(part), mismatch)
  const note = (term: FormulaTerm) => ({ line, term, note: '' })
  switch (line.kind) {
    case 'mode mismatch':
      return note(mismatch)
    case 'gap':
    case 'lateral offset':
    case 'tilt':
    case 'roll':
      return note(alone(line.kind))
    case 'combined':
      return note(
        differenceTerm(
          losses.joint,
          sumTerm(mismatch, ...JOINT_PARTS.filter((part) => part !== 'mode mismatch').map(alone)),
        ),
      )
    default:
      return note(line.id.endsWith('near') ? losses.nearFace : losses.farFace)
  }
}

/** Causes that a note names one by one. */
const MOST_NAMED = 3

/**
 * What keeps the corners of a design out of the reach of cells: a pose that only a search finds, or a line without a closed form that
 * a tolerance moves. Empty where every corner can be computed here.
 */
export function beyondCells(
  compiled: CompiledCandidate,
  joints: readonly LiveJoint[],
  carried: readonly LineModel[],
): readonly string[] {
  const { chain } = compiled.candidate
  const searched = joints
    .filter((joint) => !followsAligning(joint))
    .map(({ element }) => `the aligned pose of ${jointWords(chain, element.id)}`)
  const slots = tolerancedSlots(compiled)
  const moved = carried.filter((line) => {
    const nominal = line.lossDb(compiled.nominal)
    return slots.some((slot) =>
      ([-1, 1] as const).some(
        (sign) => line.lossDb(atEnd(compiled, compiled.nominal, slot, sign)) !== nominal,
      ),
    )
  })
  const named = [...searched, ...moved.map(({ label }) => label)]
  const rest = named.length - MOST_NAMED
  return rest < 2 ? named : [...named.slice(0, MOST_NAMED), `${rest} more`]
}

/** For each relay, which cells of it are live. */
export function relayCellNotes(
  { candidate: { chain } }: CompiledCandidate,
  inputLabels: (id: string) => readonly string[],
) {
  return chain
    .filter(({ kind }) => kind === 'relay')
    .map(({ id }) => {
      const live = inputLabels(id)
      const cells = live.length === 0 ? 'no cell is recalculated' : `recalculated cells: ${live.join(', ')}`
      return `Relay, ${jointWords(chain, id)}: ${cells}. Lenses, distances, alignment and focus have no closed form in cells; their lines are fixed values and change only in the app.`
    })
}
