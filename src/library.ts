// The library entry: what a script may use, in one module. `npm run build` bundles it as dist-lib/modeseam.js with types; package.json names
// it, so that a script in this repository imports from 'modeseam'. Described with examples in docs/library.md, which a test runs.

import { computeFitsHere } from './analysis/field/fit/fitHere'

computeFitsHere()

export { runArray } from './analysis/array/runArray'
export { sectionSolver } from './analysis/field/solvedSections'
export * from './analysis/index'
export * from './measure/index'
export * from './model/index'
export { type Issue, issueText, type Path, pathText, type Result } from './model/issue'
export type { Quantity } from './model/quantity/quantity'
export type { Project } from './model/schema/project'
export { InputError } from './numerics/inputError'
export * from './optics/index'
export { type CommandWorld, EXIT } from './report/command/commandWorld'
export { evaluateCommand } from './report/command/evaluateCommand'
export { sheetCommand } from './report/command/sheetCommand'
export { FORMATS } from './report/formats'
export { buildSheet, type Sheet, type SheetRequest } from './report/sheet'
