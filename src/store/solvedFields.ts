// Modes of cross-sections, solved off the page: derived, so never saved and no part of undo. What is computed with them is
// given a copy of the project in which facets and chip ends hold their modes.

import { useCallback } from 'react'
import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import type { SolvedField } from '../analysis/crossSection/facetMode'
import { modeHolders, withHolders } from '../analysis/field/modeHolders'
import { type ModeHolder, SECTION_CELLS, wantedSection, withSolvedField } from '../analysis/field/portShape'
import { coreValue } from '../model/quantity/quantity'
import type { CrossSectionEntry } from '../model/schema/crossSection'
import type { Project } from '../model/schema/project'
import { workbench } from './workbench'

interface SolvedFields {
  readonly fields: ReadonlyMap<string, SolvedField>
  /** Why a cross-section has no mode, by its key. */
  readonly refusals: ReadonlyMap<string, string>
  /** Share of the present solution, 0 to 1; null while nothing is solved. */
  readonly progress: number | null
  /** Grows with every fit of a joint that becomes known. */
  readonly fits: number
}

const solved = createStore<SolvedFields>()(() => ({
  fields: new Map(),
  refusals: new Map(),
  progress: null,
  fits: 0,
}))

/** Key of the mode that a facet or an end is said to have; null where it is not that of a cross-section. */
export function wantedKey(holder: ModeHolder, project: Project): string | null {
  return wantedSection(holder, coreValue(project.requirements.wavelength, 'wavelength'))?.key ?? null
}

interface WantedKeys {
  readonly wavelength: Project['requirements']['wavelength']
  readonly converters: Project['converters']
  readonly keys: readonly (string | null)[]
}

const wantedBy = new WeakMap<Project['facets'], WantedKeys>()

/** The keys of all holders in their order: asked for with every evaluation, and found anew only where they may have changed. */
function wantedKeys(project: Project): readonly (string | null)[] {
  const { facets, converters } = project
  const { wavelength } = project.requirements
  const known = wantedBy.get(facets)
  if (known?.wavelength === wavelength && known.converters === converters) return known.keys
  const keys = modeHolders(project).map(({ holder }) => wantedKey(holder, project))
  wantedBy.set(facets, { wavelength, converters, keys })
  return keys
}

type PartsWithModes = Pick<Project, 'facets' | 'converters'>

interface Copy {
  readonly keys: readonly (string | null)[]
  readonly fields: SolvedFields['fields']
  /** The keys of the modes that are in them. */
  readonly solved: string
  readonly parts: PartsWithModes
}

const copies = new WeakMap<Project['facets'], Copy>()

/** The parts with the modes that are solved; those of the project where there are none. */
function partsWithModes(project: Project): PartsWithModes {
  const { fields } = solved.getState()
  const keys = wantedKeys(project)
  const copy = copies.get(project.facets)
  if (copy?.keys === keys && copy.fields === fields) return copy.parts
  const known = keys.map((key) => (key !== null && fields.has(key) ? key : ''))
  const text = known.join('\n')
  const filled = () =>
    withHolders(project, (holder) => {
      const key = wantedKey(holder, project)
      const field = key === null ? undefined : fields.get(key)
      return key === null || field === undefined ? holder : withSolvedField(holder, field, key)
    })
  const none = known.every((key) => key === '')
  const parts = none ? project : copy?.keys === keys && copy.solved === text ? copy.parts : filled()
  copies.set(project.facets, { keys, fields, solved: text, parts })
  return parts
}

/** The project with the solved modes in its parts; the project itself where there are none. */
export function withSolvedFields(project: Project): Project {
  const { facets, converters } = partsWithModes(project)
  return facets === project.facets && converters === project.converters
    ? project
    : { ...project, facets, converters }
}

/** Text that changes when a mode that the project uses becomes known. */
export function solvedKeys(project: Project): string {
  const { fields } = solved.getState()
  return wantedKeys(project)
    .filter((key) => key !== null && fields.has(key))
    .join('\n')
}

export function useSolvedFields(): SolvedFields {
  return useStore(solved)
}

/** `withSolvedFields` for a screen: another function, and so drawn again, once a mode is solved. */
export function useWithSolvedFields(): typeof withSolvedFields {
  const { fields } = useSolvedFields()
  // biome-ignore lint/correctness/useExhaustiveDependencies: what it gives depends on the modes that are solved
  return useCallback((project: Project) => withSolvedFields(project), [fields])
}

/** How many fits of joints have become known: numbers made before may have waited for one. */
export const fitCount = (): number => solved.getState().fits

/** A fit of a joint has become known: what is computed with fields is drawn again. */
export function fitsLearned(): void {
  solved.setState(({ fields, fits }) => ({ fields: new Map(fields), fits: fits + 1 }))
}

let job: AbortController | null = null

/** The first mode that is wanted and neither known nor refused. */
function nextWanted(
  project: Project,
): { readonly section: CrossSectionEntry; readonly key: string } | undefined {
  const { fields, refusals } = solved.getState()
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  return modeHolders(project)
    .flatMap(({ holder }) => wantedSection(holder, wavelengthUm) ?? [])
    .find(({ key }) => !fields.has(key) && !refusals.has(key))
}

/** Solves what the project wants, one after the other; a change of what is wanted gives up the present one. */
async function solveNext(): Promise<void> {
  job?.abort()
  job = null
  const { project } = workbench.getState()
  const wanted = nextWanted(project)
  if (wanted === undefined) {
    if (solved.getState().progress !== null) solved.setState({ progress: null })
    return
  }
  const control = new AbortController()
  job = control
  solved.setState({ progress: 0 })
  const { runModeJob } = await import('../jobs/modeSolveClient')
  const { key, section } = wanted
  const refuse = (message: string) =>
    solved.setState((state) => ({ refusals: new Map(state.refusals).set(key, message) }))
  try {
    const outcome = await runModeJob(
      'solve',
      {
        section,
        wavelengthUm: coreValue(project.requirements.wavelength, 'wavelength'),
        fibre: null,
        cells: SECTION_CELLS,
      },
      { signal: control.signal, onProgress: (progress) => solved.setState({ progress }) },
    )
    if (outcome.ok) {
      const mode = outcome.value.coupling
      solved.setState((state) => ({ fields: new Map(state.fields).set(key, mode) }))
    } else refuse(outcome.message)
  } catch (error) {
    if (control.signal.aborted) return
    refuse(error instanceof Error ? error.message : String(error))
  }
  if (job === control) await solveNext()
}

/** Watches the project and solves what it wants. Returns the function that ends it. */
export function startSolving(): () => void {
  let wanted = ''
  const look = () => {
    const { project } = workbench.getState()
    const keys = wantedKeys(project).join('\n')
    if (keys === wanted) return
    wanted = keys
    void solveNext()
  }
  look()
  return workbench.subscribe(look)
}
