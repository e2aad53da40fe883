import { useMemo } from 'react'
import { buildSheet } from '../../report/sheet'
import { useWorkbench } from '../../store/workbench'
import { SheetView } from './SheetView'

export function SheetPage() {
  const project = useWorkbench((state) => state.project)
  const sheet = useMemo(() => buildSheet(project, new Date().toISOString().slice(0, 10)), [project])
  return (
    <div className="page">
      <button type="button" className="screen-only" onClick={() => window.print()}>
        Print
      </button>
      <SheetView sheet={sheet} />
    </div>
  )
}
