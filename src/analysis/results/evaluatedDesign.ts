// One design of a project with its evaluation: what each view of a design is given.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { Evaluation } from './evaluation'

export interface EvaluatedDesign {
  readonly project: Project
  readonly design: Candidate
  readonly evaluation: Evaluation
}
