// The public face of the project model.
export { demoProject } from './demoProject'
export { emptyProject } from './emptyProject'
export { parseProject, readProject, readProjectText } from './parseProject'
export { ProjectError } from './projectError'
export { projectText } from './projectText'
