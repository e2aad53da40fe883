// Which chains are physically possible: guides and joins alternating, from a fibre to a facet, each part of the right kind.

import type { Issue, Path } from '../../../model/issue'
import type { ChainElement, ElementKind } from '../../../model/schema/candidate'
import type { ConverterKind } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'

const GUIDES: ReadonlySet<ElementKind> = new Set(['fibre', 'stub', 'taper chip', 'facet'])

const NAMES: Readonly<Record<ElementKind, string>> = {
  fibre: 'a fibre',
  stub: 'a fibre stub',
  'taper chip': 'an SSC chip',
  facet: 'a chip facet',
  splice: 'a splice',
  gap: 'a gap',
  relay: 'a relay',
}

const CONVERTERS: Readonly<Record<ConverterKind, string>> = {
  'taper chip': 'an SSC chip',
  'lensed tip': 'a lensed fibre',
}

/** Every reason why the chain cannot be built; an empty list where it can. */
export function sequenceIssues(
  chain: readonly ChainElement[],
  project: Pick<Project, 'converters'>,
  path: Path,
): readonly Issue[] {
  const issue = (at: number, message: string, fix: string): Issue => ({
    path: [...path, at],
    code: 'sequence',
    message,
    fix,
  })
  const last = chain.length - 1
  if (chain.length < 3) {
    return [
      issue(
        0,
        `the path has ${chain.length} elements; it needs at least a fibre, a joint and a facet`,
        'Add the missing elements.',
      ),
    ]
  }
  return chain.flatMap((element, at) => {
    const name = NAMES[element.kind]
    if ((at === 0) !== (element.kind === 'fibre')) {
      return [
        issue(
          at,
          `element ${at + 1} of the path is ${name}; a path starts with a fibre and contains no other fibre`,
          'Use a fibre stub after it.',
        ),
      ]
    }
    if ((at === last) !== (element.kind === 'facet')) {
      return [
        issue(
          at,
          `element ${at + 1} of ${last + 1} of the path is ${name}; a path ends at a chip facet and contains no other facet`,
          'Move the facet to the end.',
        ),
      ]
    }
    if (GUIDES.has(element.kind) !== (at % 2 === 0)) {
      return [
        issue(
          at,
          `element ${at + 1} of the path is ${name}; waveguides and joints must alternate`,
          'Insert a splice, a gap or a relay between two waveguides.',
        ),
      ]
    }
    const spliced = element.kind === 'splice' ? spliceIssue(chain, at) : null
    if (spliced !== null) return [issue(at, ...spliced)]
    const wrong = wrongConverter(element, project)
    return wrong === null ? [] : [issue(at, ...wrong)]
  })
}

type Refusal = readonly [message: string, fix: string]

/** Why the ends that a splice would join cannot be fused. */
function spliceIssue(chain: readonly ChainElement[], at: number): Refusal | null {
  const [before, after] = [chain[at - 1], chain[at + 1]]
  if (after?.kind === 'facet') {
    return ['a chip facet cannot be fusion spliced', 'Use a gap in front of the facet.']
  }
  if (before?.kind === 'taper chip' || after?.kind === 'taper chip') {
    return ['an SSC chip cannot be fusion spliced', 'Use a gap on either side of the chip.']
  }
  if ((before?.kind === 'fibre' || before?.kind === 'stub') && before.tipId !== undefined) {
    return [
      'the lensed end of a fibre cannot be fusion spliced: the arc melts the lens',
      'Remove the tip, or insert a gap behind it.',
    ]
  }
  return null
}

/** Why the converter that an element names cannot be used there. */
function wrongConverter(element: ChainElement, project: Pick<Project, 'converters'>): Refusal | null {
  const check = (id: string, wanted: ConverterKind): Refusal | null => {
    const found = byId(project.converters, id)
    if (found?.kind === wanted) return null
    const seen = found === undefined ? 'is missing from the parts' : `is ${CONVERTERS[found.kind]}`
    return [
      `"${found?.name ?? id}" ${seen}; this element needs ${CONVERTERS[wanted]}`,
      `Choose ${CONVERTERS[wanted]}.`,
    ]
  }
  if (element.kind === 'taper chip') return check(element.converterId, 'taper chip')
  if ((element.kind === 'fibre' || element.kind === 'stub') && element.tipId !== undefined) {
    return check(element.tipId, 'lensed tip')
  }
  return null
}
