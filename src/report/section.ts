// A section of the sheet: one file in sections/, listed in sections.ts. It returns blocks, and none where it has nothing
// to say.

import type { Block } from './document/blocks'
import type { SheetContext } from './sheet'

export interface SectionSpec {
  /** Kept in project files for remarks and ticks: never changed. */
  readonly id: string
  readonly title: string
  readonly build: (context: SheetContext) => readonly Block[]
}
