// The demo with two of its designs, for tests about one choice between a design that fails and one that nearly passes.

import { demoProject } from '../../src/model/index'
import type { Project } from '../../src/model/schema/project'

const KEPT: readonly string[] = ['cleaved-dry', 'high-na-bonded']

/** A fresh copy with the dry cleaved fibre and the bonded stub. */
export function twoDesigns(): Project {
  const project = demoProject()
  return { ...project, candidates: project.candidates.filter(({ id }) => KEPT.includes(id)) }
}
