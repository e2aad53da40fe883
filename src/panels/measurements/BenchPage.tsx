// The bench: measured scans and images become mode-field diameters, and say where the decibels went.

import { useEffect, useRef } from 'react'
import { chooseOnBench, DIFFERENCE, offerFiles, offerText, useDesk } from '../../store/benchDesk'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { AddReadings } from './AddReadings'
import { METHOD_NAMES } from './benchText'
import { DeskView } from './DeskView'
import { DifferenceView } from './DifferenceView'
import { MeasurementView } from './MeasurementView'
import './bench.css'

function isField(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement
}

/** Ctrl+V anywhere on the page that is no field: a copied table, or copied files. */
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
    const heading = page.current?.querySelector('h1')
    heading?.setAttribute('tabindex', '-1')
    heading?.focus()
  }, [shown])
  return page
}

export function BenchPage() {
  const project = useWorkbench((state) => state.project)
  const stage = useDesk((state) => state.stage)
  const chosen = useDesk((state) => state.chosen)
  usePaste()
  const busyDesk = stage.at !== 'empty'
  // Undo may have taken the chosen measurement away; the last one then stands in.
  const measurement =
    chosen === DIFFERENCE
      ? undefined
      : (project.measurements.find((each) => each.id === chosen) ?? project.measurements.at(-1))
  const page = useKeptFocus(
    busyDesk ? stage.at : chosen === DIFFERENCE ? DIFFERENCE : (measurement?.id ?? 'none'),
  )
  return (
    <div className="workbench bench-frame">
      <nav className="candidate-list" aria-label="Measurements">
        {project.measurements.map(({ id, name, method }) => (
          <button
            key={id}
            type="button"
            className="candidate-choice measurement-choice"
            aria-current={!busyDesk && id === measurement?.id ? 'true' : undefined}
            disabled={busyDesk}
            onClick={() => chooseOnBench(id)}
          >
            <span>{name}</span>
            <span className="quiet">{METHOD_NAMES[method]}</span>
          </button>
        ))}
        <button
          type="button"
          className="candidate-choice"
          aria-current={!busyDesk && chosen === DIFFERENCE ? 'true' : undefined}
          disabled={busyDesk}
          onClick={() => chooseOnBench(DIFFERENCE)}
        >
          Predicted against measured
        </button>
        <AddReadings />
      </nav>
      <div className="page bench" ref={page}>
        {busyDesk ? (
          <DeskView stage={stage} />
        ) : chosen === DIFFERENCE ? (
          <DifferenceView project={project} />
        ) : measurement !== undefined ? (
          <MeasurementView key={measurement.id} project={project} measurement={measurement} />
        ) : (
          <EmptyBench />
        )}
        <Cautions />
      </div>
    </div>
  )
}

function EmptyBench() {
  return (
    <>
      <h1>No measurement yet</h1>
      <p className="empty-bench">Drop a scan or an image here, open one, or paste a table with Ctrl+V.</p>
      <ul className="prose">
        <li>Transverse-offset scans of a known probe, along one or two axes or as a raster</li>
        <li>Far-field angular scans</li>
        <li>Near-field images: PGM, PNG, TIFF</li>
        <li>Loopback and cut-back losses over length, and repeated readings of one quantity</li>
      </ul>
      <p className="prose quiet">
        Text tables may have any delimiter, decimal mark and units; the reader says what it concluded and asks
        where the file leaves a doubt. Nothing leaves this machine.
      </p>
    </>
  )
}
