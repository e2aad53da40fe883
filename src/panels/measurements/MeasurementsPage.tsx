// Measured scans and images become mode-field diameters and losses, and are compared with what a design predicts.

import { useEffect, useRef } from 'react'
import { byId } from '../../model/words/byId'
import { DIFFERENCE, offerFiles, offerText, useDesk } from '../../store/benchDesk'
import { useWorkbench } from '../../store/workbench'
import { ListDetail } from '../../ui/controls/ListDetail'
import { Pane } from '../../ui/controls/Panes'
import { DifferenceView } from './difference/DifferenceView'
import { MeasurementList } from './MeasurementList'
import { MeasurementView } from './MeasurementView'
import { DeskView } from './reading/DeskView'
import './measurements.css'

function isField(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement
}

/** Ctrl+V anywhere on the page outside of fields: a copied table, or copied files. */
function usePaste(): void {
  useEffect(() => {
    const onPaste = (event: ClipboardEvent) => {
      if (isField(event.target) || event.clipboardData === null) return
      const files = [...event.clipboardData.files]
      const text = event.clipboardData.getData('text/plain')
      if (files.length > 0) offerFiles(files)
      else if (text.trim() !== '') offerText(text)
    }
    window.addEventListener('paste', onPaste)
    return () => window.removeEventListener('paste', onPaste)
  }, [])
}

/** A button that vanishes with its view takes the focus with it; the heading of the next view then has it. */
function useKeptFocus(shown: string) {
  const page = useRef<HTMLDivElement>(null)
  const before = useRef(shown)
  useEffect(() => {
    if (before.current === shown) return
    before.current = shown
    if (document.activeElement !== document.body) return
    const heading = page.current?.querySelector<HTMLElement>('.measurement-title')
    heading?.setAttribute('tabindex', '-1')
    heading?.focus()
  }, [shown])
  return page
}

export function MeasurementsPage() {
  const project = useWorkbench((state) => state.project)
  const stage = useDesk((state) => state.stage)
  const chosen = useDesk((state) => state.chosen)
  usePaste()
  const busyDesk = stage.at !== 'empty'
  // Undo may have taken the chosen measurement away; the last one is shown then.
  const measurement =
    chosen === DIFFERENCE ? undefined : (byId(project.measurements, chosen) ?? project.measurements.at(-1))
  const page = useKeptFocus(
    busyDesk ? stage.at : chosen === DIFFERENCE ? DIFFERENCE : (measurement?.id ?? 'none'),
  )
  const detail = busyDesk ? (
    <Pane name="Measurement" headless>
      <DeskView stage={stage} />
    </Pane>
  ) : chosen === DIFFERENCE ? (
    <Pane name="Measurement" headless>
      <DifferenceView project={project} />
    </Pane>
  ) : measurement !== undefined ? (
    <MeasurementView key={measurement.id} project={project} measurement={measurement} />
  ) : (
    <Pane name="Measurement" headless>
      <NoMeasurement />
    </Pane>
  )
  return (
    <div className="measurements" ref={page}>
      <h1 className="visually-hidden">Measurements</h1>
      <ListDetail
        id="measurements"
        size="17rem"
        listName="measurement-list"
        detailName="measurement"
        list={
          <MeasurementList
            measurements={project.measurements}
            shownId={chosen === DIFFERENCE ? DIFFERENCE : (measurement?.id ?? '')}
            busy={busyDesk}
          />
        }
        detail={detail}
      />
    </div>
  )
}

function NoMeasurement() {
  return (
    <>
      <h2 className="measurement-title">No measurements yet</h2>
      <p className="no-measurement">Drop a scan or an image here, open one, or paste a table with Ctrl+V.</p>
      <ul className="prose">
        <li>Transverse-offset scans with a known probe (one axis, two axes or raster)</li>
        <li>Far-field angular scans</li>
        <li>Near-field images: PGM, PNG, TIFF</li>
        <li>Loopback and cut-back losses against length, and repeated readings of one quantity</li>
        <li>Lots of assemblies: a table of assembly, channel and loss</li>
        <li>Stress tests: the same table with hours or cycles</li>
      </ul>
      <p className="prose quiet">
        Text tables may have any delimiter, decimal mark and units. The importer shows how it interpreted the
        file and asks about anything ambiguous. All data stay on this computer.
      </p>
    </>
  )
}
