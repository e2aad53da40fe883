// Which chains make physical sense: guides and joins in turn, from a fibre to a facet.

import type { ChainElement, ElementKind } from '../../model/candidate'
import type { Issue, Path } from '../../model/issue'

const GUIDES: ReadonlySet<ElementKind> = new Set(['fibre', 'stub', 'facet'])

const NAMES: Readonly<Record<ElementKind, string>> = {
  fibre: 'a fibre',
  stub: 'a fibre stub',
  facet: 'a chip facet',
  splice: 'a splice',
  gap: 'a gap',
}

/** Every reason why the chain cannot be built; an empty list where it can. */
export function sequenceIssues(chain: readonly ChainElement[], path: Path): readonly Issue[] {
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
        `the chain has ${chain.length} elements; it needs at least a fibre, a join and a facet`,
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
          `place ${at + 1} of the chain is ${name}; a chain starts with a fibre and has no other`,
          'Use a fibre stub further on.',
        ),
      ]
    }
    if ((at === last) !== (element.kind === 'facet')) {
      return [
        issue(
          at,
          `place ${at + 1} of ${last + 1} of the chain is ${name}; a chain ends on a chip facet and has no other`,
          'Put the facet last.',
        ),
      ]
    }
    if (GUIDES.has(element.kind) !== (at % 2 === 0)) {
      return [
        issue(
          at,
          `place ${at + 1} of the chain is ${name}; guides and joins must take turns`,
          'Put a splice or a gap between two guides.',
        ),
      ]
    }
    if (element.kind === 'splice' && chain[at + 1]?.kind === 'facet') {
      return [issue(at, 'a chip facet cannot be fusion spliced', 'Use a gap in front of the facet.')]
    }
    return []
  })
}
