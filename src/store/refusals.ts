// What was refused and why, until the user has read it.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import type { Issue } from '../model/issue'

const refusals = createStore<{ readonly issues: readonly Issue[] }>()(() => ({ issues: [] }))

export function refuse(issues: readonly Issue[]): void {
  if (issues.length > 0) refusals.setState({ issues })
}

export function forgetRefusals(): void {
  refusals.setState({ issues: [] })
}

export function useRefusals(): readonly Issue[] {
  return useStore(refusals, (state) => state.issues)
}
