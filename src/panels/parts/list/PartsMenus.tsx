// Adding a part, and parts as files. File formats load when first wanted.

import { useState } from 'react'
import type { Issue } from '../../../model/issue'
import {
  newFacet,
  newFibre,
  newLens,
  newLensedTip,
  newMedium,
  newTaperChip,
} from '../../../model/parts/newParts'
import { KIND_LABELS, type PartKind } from '../../../model/parts/partKinds'
import type { PartList } from '../../../model/project/references'
import type { Project } from '../../../model/schema/project'
import { freeId, freeName } from '../../../model/words/freeName'
import { LIMITS } from '../../../model/words/limits'
import { addAndShow, NO_FILTERS, partsView } from '../../../store/partsView'
import { Menu } from '../../../ui/controls/Menu'
import { RefusedDialog } from '../../../ui/controls/RefusedDialog'
import type { FileOutcome } from './partsFiles'

const NEW_PARTS: readonly {
  readonly kind: PartKind
  readonly list: PartList
  readonly add: (draft: Project) => void
}[] = [
  { kind: 'fibre', list: 'fibres', add: ({ fibres }) => fibres.push(newFibre(freeId('fibre', fibres))) },
  { kind: 'facet', list: 'facets', add: ({ facets }) => facets.push(newFacet(freeId('facet', facets))) },
  { kind: 'gap medium', list: 'media', add: ({ media }) => media.push(newMedium(freeId('medium', media))) },
  {
    kind: 'lensed fibre',
    list: 'converters',
    add: ({ converters }) => converters.push(newLensedTip(freeId('tip', converters))),
  },
  {
    kind: 'SSC chip',
    list: 'converters',
    add: ({ converters }) => converters.push(newTaperChip(freeId('taper-chip', converters))),
  },
  { kind: 'lens', list: 'lenses', add: ({ lenses }) => lenses.push(newLens(freeId('lens', lenses))) },
]

export function PartsMenus({
  project,
  onSaid,
}: {
  readonly project: Project
  readonly onSaid: (said: string) => void
}) {
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const run = (work: (files: typeof import('./partsFiles')) => Promise<FileOutcome>) =>
    void import('./partsFiles').then(work).then((outcome) => {
      onSaid(outcome.said)
      setIssues(outcome.issues)
    })
  const add = ({ kind, list, add: addTo }: (typeof NEW_PARTS)[number]) => {
    partsView.setState({ shelf: 'project', ...NO_FILTERS })
    addAndShow(list, (draft) => {
      addTo(draft)
      const own = draft[list].at(-1)
      if (own !== undefined) own.name = freeName(own.name, draft[list].slice(0, -1))
    })
    onSaid(`${KIND_LABELS[kind].one} added: enter its numbers on the right`)
  }
  return (
    <span className="parts-menus">
      <Menu
        label="Add part"
        align="end"
        entries={() =>
          NEW_PARTS.map((each) => ({
            id: each.kind,
            label: KIND_LABELS[each.kind].one,
            disabled: project[each.list].length >= LIMITS.parts,
            ...(project[each.list].length >= LIMITS.parts
              ? { note: `A project holds at most ${LIMITS.parts}` }
              : {}),
            onChoose: () => add(each),
          }))
        }
      >
        Add <span aria-hidden="true">▾</span>
      </Menu>
      <Menu
        label="Part files"
        align="end"
        className="subtle"
        entries={() => [
          { id: 'import', label: 'Import parts…', onChoose: () => run((files) => files.importParts()) },
          {
            id: 'json',
            label: 'Export as JSON',
            note: 'Contains all data',
            onChoose: () => run((files) => files.exportParts(project, 'json')),
          },
          {
            id: 'csv',
            label: 'Export as CSV',
            note: 'Opens in a spreadsheet',
            onChoose: () => run((files) => files.exportParts(project, 'csv')),
          },
        ]}
      >
        Files <span aria-hidden="true">▾</span>
      </Menu>
      <RefusedDialog issues={issues} onClose={() => setIssues([])} />
    </span>
  )
}
