// What distinguishes the free-space joints of one path: a number and the two guides they join.

import type { ChainElement, ElementKind } from '../schema/candidate'

export interface JointName {
  /** `joint 2` where the chain has several, empty where it has one. */
  readonly tag: string
  /** `SSC chip to facet`; always given. */
  readonly between: string
  readonly near: string
  readonly far: string
}

const GUIDE_WORDS: Readonly<Partial<Record<ElementKind, string>>> = {
  fibre: 'fibre',
  stub: 'stub',
  'taper chip': 'SSC chip',
  facet: 'facet',
}

const wordOf = (element: ChainElement | undefined) =>
  element === undefined ? 'nothing' : (GUIDE_WORDS[element.kind] ?? element.kind)

/** The names of the gaps and relays of a chain, by the element's id. */
export function jointNames(chain: readonly ChainElement[]): ReadonlyMap<string, JointName> {
  const joints = chain.flatMap(({ kind, id }, at) => (kind === 'gap' || kind === 'relay' ? [{ id, at }] : []))
  return new Map(
    joints.map(({ id, at }, i) => {
      const [near, far] = [wordOf(chain[at - 1]), wordOf(chain[at + 1])]
      const tag = joints.length < 2 ? '' : `joint ${i + 1}`
      return [id, { tag, between: `${near} to ${far}`, near, far }]
    }),
  )
}

/** A label that also names its joint, where there are several. */
export function ofJoint(label: string, name: JointName | undefined): string {
  return name === undefined || name.tag === '' ? label : `${label}, ${name.tag}`
}

/** The joint at the chip, which the mount moves; undefined where there is none. */
export function chipJoint(chain: readonly ChainElement[]): JointName | undefined {
  return jointNames(chain).get(chain.at(-2)?.id ?? '')
}

/** A joint in a table of its own: `fibre to facet`, `joint 2, SSC chip to facet`; a splice by its kind. */
export function jointWords(chain: readonly ChainElement[], elementId: string): string {
  const name = jointNames(chain).get(elementId)
  if (name === undefined) return chain.find(({ id }) => id === elementId)?.kind ?? elementId
  return name.tag === '' ? name.between : `${name.tag}, ${name.between}`
}
