// The whole project: what a file holds and what undo restores.

export type { Design, Project, Revision } from '../schema/project'

export const PROJECT_FORMAT = 'modeseam-project'
export const PROJECT_VERSION = 2
