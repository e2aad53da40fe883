// What is on screen: page, design, element of its path, depth tab. No part of the project, and so not of undo or of files.
// The one source of these: whatever shows, links to or restores a place of the app reads and writes here.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

export const PAGES = [
  'requirements',
  'parts',
  'design',
  'compare',
  'sizing',
  'order',
  'measurements',
  'review',
] as const
export type Page = (typeof PAGES)[number]

export const LIGHT_TABS = ['reflections', 'spectrum', 'polarisation', 'power'] as const
/** From the design to parts that fit together. */
export const BUILD_TABS = ['clearance', 'assembly', 'firstLight', 'lifetime'] as const
export const DEPTH_TABS = [
  'tolerance',
  'yield',
  'array',
  'temperature',
  'fields',
  ...LIGHT_TABS,
  ...BUILD_TABS,
] as const
export type DepthTab = (typeof DEPTH_TABS)[number]

/** Selects the design as a whole in place of one of its elements. */
export const WHOLE_DESIGN = 'design'

export interface View {
  readonly page: Page
  /** The design shown in depth. It may be gone from the project; `store/selection.ts` then falls back. */
  readonly designId: string
  /** The design that was shown before it: shown again where undo takes the chosen one away. */
  readonly designBeforeId: string
  /** The element of the optical path, the user line or `WHOLE_DESIGN`; empty for the joint at the chip. */
  readonly elementId: string
  readonly depthTab: DepthTab
  /** Whether the depth pane takes the whole middle of the Design screen. */
  readonly depthExpanded: boolean
  /** Whether the gallery of families is open. */
  readonly addingDesign: boolean
}

export const view = createStore<View>()(() => ({
  page: 'design',
  designId: '',
  designBeforeId: '',
  elementId: '',
  depthTab: 'tolerance',
  depthExpanded: false,
  addingDesign: false,
}))

export function useView<T>(select: (state: View) => T): T {
  return useStore(view, select)
}

export function showPage(page: Page): void {
  view.setState({ page })
}

/** Chooses a design for all pages. Its joint at the chip is selected. */
export function selectDesign(designId: string): void {
  const { designId: designBeforeId } = view.getState()
  if (designBeforeId !== designId) view.setState({ designId, designBeforeId, elementId: '' })
}

/** Chooses a design and shows it in depth. */
export function openDesign(designId: string, depthTab: DepthTab = view.getState().depthTab): void {
  selectDesign(designId)
  view.setState({ page: 'design', depthTab })
}

/** Selects an element of the path, a user line or `WHOLE_DESIGN`, everywhere at once. */
export function selectElement(elementId: string): void {
  view.setState({ elementId })
}

export function showDepthTab(depthTab: DepthTab): void {
  view.setState({ depthTab })
}

export function expandDepth(depthExpanded: boolean): void {
  view.setState({ depthExpanded })
}

/** Opens the gallery of families, from any page. */
export function openAddDesign(): void {
  view.setState({ addingDesign: true })
}

export function closeAddDesign(): void {
  view.setState({ addingDesign: false })
}
