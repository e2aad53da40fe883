import { buildSheet } from '../../report/sheet'
import { useFreshRuns } from '../../store/runs'
import { withSolvedFields } from '../../store/solvedFields'
import { useWorkbench } from '../../store/workbench'
import { SheetView } from './SheetView'

export function SheetPage() {
  const project = useWorkbench((state) => state.project)
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const today = new Date().toISOString().slice(0, 10)
  const sheet = buildSheet(withSolvedFields(project), today, { yields, arrays })
  return (
    <div className="page">
      <button type="button" className="screen-only" onClick={() => window.print()}>
        Print
      </button>
      <SheetView sheet={sheet} />
    </div>
  )
}
