// The public face of the project model.
export { DEMO_DESIGN_ID, demoProject } from './project/demoProject'
export { emptyProject } from './project/emptyProject'
export { parseProject, readProject, readProjectText } from './project/parseProject'
export { ProjectError } from './project/projectError'
export { projectText } from './project/projectText'
