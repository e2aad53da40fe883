// What a cross-section belongs to on screen: a facet, or one end of an SSC chip. Edits go to the project's draft.

import { type SweepVariable, setVariable } from '../../../analysis/crossSection/sweepVariable'
import { type ChipSide, END_FIELDS, endName } from '../../../model/parts/chipEnds'
import { newCrossSection, newGlassSection } from '../../../model/parts/newCrossSection'
import { coreValue, type Quantity } from '../../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import type { FacetShape } from '../../../model/schema/modeShape'
import type { ChipEnd, FacetEntry, TaperChipEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { type ModeQuantities, takeSweptValue } from './takeMode'

export interface SectionOwner {
  /** Names its runs. */
  readonly id: string
  readonly name: string
  /** What its mode is called in a caption. */
  readonly kind: 'facet' | 'chip end'
  readonly mfdX: Quantity
  readonly mfdY: Quantity
  readonly crossSection?: CrossSectionEntry | undefined
  readonly modeShape?: FacetShape | undefined
  /** What a new one starts from. */
  readonly firstSection: (wavelengthUm: number) => CrossSectionEntry
  readonly sectionIn: (draft: Project) => CrossSectionEntry | undefined
  readonly setSection: (draft: Project, section: CrossSectionEntry | undefined) => void
  readonly setShape: (draft: Project, shape: FacetShape | undefined) => void
  /** Writes the numbers of a solved mode, made from those that were there. */
  readonly apply: (draft: Project, change: (before: ModeQuantities) => ModeQuantities) => void
  readonly applySwept: (draft: Project, variable: SweepVariable, value: number) => void
}

export function facetOwner(facet: FacetEntry): SectionOwner {
  const find = (draft: Project) => byId(draft.facets, facet.id)
  return {
    id: facet.id,
    name: facet.name,
    kind: 'facet',
    mfdX: facet.mfdX,
    mfdY: facet.mfdY,
    crossSection: facet.crossSection,
    modeShape: facet.modeShape,
    firstSection: () =>
      newCrossSection(
        coreValue(facet.tipWidth ?? facet.guideWidth, 'guideSize'),
        coreValue(facet.guideHeight, 'guideSize'),
      ),
    sectionIn: (draft) => find(draft)?.crossSection,
    setSection: (draft, section) => {
      const own = find(draft)
      if (own !== undefined) own.crossSection = section
    },
    setShape: (draft, shape) => {
      const own = find(draft)
      if (own !== undefined) own.modeShape = shape
    },
    apply: (draft, change) => {
      const own = find(draft)
      if (own !== undefined) Object.assign(own, change(own))
    },
    applySwept: (draft, variable, value) => {
      const own = find(draft)
      if (own !== undefined) takeSweptValue(own, variable, value)
    },
  }
}

export function chipEndOwner(chip: TaperChipEntry, side: ChipSide): SectionOwner {
  const fields = END_FIELDS[side]
  const find = (draft: Project): TaperChipEntry | undefined => {
    const own = byId(draft.converters, chip.id)
    return own?.kind === 'taper chip' ? own : undefined
  }
  const edit = (draft: Project, change: (end: ChipEnd) => void) => {
    const own = find(draft)
    if (own === undefined) return
    const end = own[fields.end] ?? {}
    change(end)
    own[fields.end] = Object.values(end).every((each) => each === undefined) ? undefined : end
  }
  const end = chip[fields.end]
  const sectionIn = (draft: Project) => find(draft)?.[fields.end]?.crossSection
  return {
    id: `${chip.id}/${side}`,
    name: endName(chip, side),
    kind: 'chip end',
    mfdX: chip[fields.mfdX],
    mfdY: chip[fields.mfdY],
    crossSection: end?.crossSection,
    modeShape: end?.modeShape,
    firstSection: (wavelengthUm) =>
      newGlassSection(
        { x: coreValue(chip[fields.mfdX], 'mfd'), y: coreValue(chip[fields.mfdY], 'mfd') },
        wavelengthUm,
      ),
    sectionIn,
    // The cross-section replaces the diameters unless the user chooses otherwise.
    setSection: (draft, section) =>
      edit(draft, (own) => {
        own.crossSection = section
        if (section === undefined) {
          own.index = undefined
          if (own.modeShape?.kind === 'cross-section') own.modeShape = undefined
        } else own.modeShape ??= { kind: 'cross-section' }
      }),
    setShape: (draft, shape) =>
      edit(draft, (own) => {
        own.modeShape = shape
      }),
    apply: (draft, change) => {
      const own = find(draft)
      if (own === undefined) return
      const { mfdX, mfdY, index } = change({
        mfdX: own[fields.mfdX],
        mfdY: own[fields.mfdY],
        index: own[fields.end]?.index ?? own.index,
      })
      own[fields.mfdX] = mfdX
      own[fields.mfdY] = mfdY
      edit(draft, (draftEnd) => {
        draftEnd.index = index
      })
    },
    applySwept: (draft, variable, value) => {
      const section = sectionIn(draft)
      if (section !== undefined) setVariable(section, variable, value)
    },
  }
}
