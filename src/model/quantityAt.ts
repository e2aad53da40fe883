// The quantity at a path of the project, as paths stand in variables and issues.

import type { Path } from './issue'
import type { Project } from './project'
import type { Quantity } from './quantity'

function isQuantity(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'value' in value && 'unit' in value
}

/** The quantity itself, to be read or edited in a draft; undefined where the path leads to something else. */
export function quantityAt(project: Project, path: Path): Quantity | undefined {
  let here: unknown = project
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined
    here = (here as Readonly<Record<string | number, unknown>>)[step]
  }
  return isQuantity(here) ? here : undefined
}
