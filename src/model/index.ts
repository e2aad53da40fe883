// The public face of the project model.
export { demoProject } from './demoProject'
export { emptyProject } from './emptyProject'
export { ProjectError, parseProject, projectText, readProject, readProjectText } from './parseProject'
