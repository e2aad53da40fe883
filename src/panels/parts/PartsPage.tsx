// The parts of the project and of the starter catalogue as a list, and one of them with all its numbers.

import { refKey } from '../../model/parts/partKinds'
import { filteredParts, usePartsView } from '../../store/partsView'
import { useWorkbench } from '../../store/workbench'
import { ListDetail } from '../../ui/controls/ListDetail'
import { PartListPane } from './list/PartListPane'
import { PartDetail } from './PartDetail'
import './parts.css'

export function PartsPage() {
  const project = useWorkbench((state) => state.project)
  const view = usePartsView((state) => state)
  const shown = filteredParts(project, view)
  const all = filteredParts(project, { search: '', kind: '', wavelengthUm: null })
  // Undo may have taken the chosen part away; the first of the list is shown then.
  const chosen = all.find((each) => refKey(each) === view.chosen) ?? shown[0] ?? all[0]
  return (
    <>
      <h1 className="visually-hidden">Parts</h1>
      <ListDetail
        id="parts"
        listName="part-list"
        detailName="part"
        list={<PartListPane project={project} shown={shown} chosen={chosen} />}
        detail={
          <PartDetail key={chosen === undefined ? '' : refKey(chosen)} project={project} chosen={chosen} />
        }
      />
    </>
  )
}
