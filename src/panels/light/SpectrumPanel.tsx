// Loss over wavelength, its parts, bandwidths, and the worst of the band.

import { useDeferredValue, useMemo, useState } from 'react'
import { requiredBand, shownBand } from '../../analysis/light/band'
import { spectrum } from '../../analysis/light/spectrum'
import { spectrumFigure } from '../../figures/light/spectrum'
import { leadingLimit } from '../../model/project/lossCriteria'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { useWithSolvedFields } from '../../store/solvedFields'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import './light.css'

/** The two rows of choices, sentence, reading, tools and notes around the chart. */
const AROUND_PX = 220
const SPANS = ['band', '20', '50', '100'] as const
type Span = (typeof SPANS)[number]
const SPAN_LABELS: Readonly<Record<Span, string>> = {
  band: 'required band',
  '20': '± 20 nm',
  '50': '± 50 nm',
  '100': '± 100 nm',
}
const CURVES = [
  { value: 'total', label: 'total' },
  { value: 'parts', label: 'total and contributions' },
]

/** Where no band is required, the first choice is some per cent of the wavelength. */
function spanLabel(project: Project, span: Span): string {
  if (span !== 'band' || requiredBand(project) !== null) return SPAN_LABELS[span]
  const [fromUm, toUm] = shownBand(project)
  return `± ${fixedText(500 * (toUm - fromUm), 0)} nm, no band required`
}

function bandOf(project: Project, span: Span): readonly [number, number] {
  if (span === 'band') return shownBand(project)
  const design = coreValue(project.requirements.wavelength, 'wavelength')
  return [design - Number(span) / 1000, design + Number(span) / 1000]
}

export function SpectrumPanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const [span, setSpan] = useState<Span>('band')
  const [curves, setCurves] = useState('total')
  const settled = useDeferredValue(project)
  const withModes = useWithSolvedFields()
  const result = useMemo(
    () => spectrum(withModes(settled), candidate.id, bandOf(settled, span)),
    [settled, candidate.id, span, withModes],
  )
  const limit = leadingLimit(project.requirements)
  const [room, roomPx] = useRoom()
  return (
    <section aria-label="Spectrum" className="light views-below">
      {room}
      <div className="light-choices">
        <ChoiceField
          label="Wavelength range"
          value={span}
          choices={SPANS.map((value) => ({ value, label: spanLabel(project, value) }))}
          onChoose={(value) => setSpan(SPANS.find((each) => each === value) ?? 'band')}
        />
        <ChoiceField label="Show" value={curves} choices={CURVES} onChoose={setCurves} />
      </div>
      {result.ok ? (
        <>
          <FigureView
            figure={spectrumFigure(result.value, limit, curves === 'parts')}
            heightPx={figurePx(roomPx, AROUND_PX)}
          />
          <ul className="quiet">
            {result.value.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </>
      ) : (
        <ul className="complaints" role="alert">
          {result.issues.map((issue) => (
            <li key={issue.message}>
              {issue.message} {issue.fix}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
