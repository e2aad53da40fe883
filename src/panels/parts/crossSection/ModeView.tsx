// A solved mode: its picture, cuts, numbers by every definition, how it settles on finer grids, and taking it over.

import { useMemo, useState } from 'react'
import type { FacetMode } from '../../../analysis/crossSection/facetMode'
import { solvedCutFigure, solvedModeFigure } from '../../../figures/field/solvedMode'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import { fixedText } from '../../../numerics/numberText'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { ModeNumbers } from './ModeNumbers'
import { cutLine, modePicture } from './modePicture'
import type { SectionOwner } from './sectionOwner'
import { DEFINITIONS, type Definition, diameterBy, solvedQuantities } from './takeMode'

const MAP_PX = 420
const CUT_PX = 300

export function ModeView({
  owner,
  section,
  mode,
  stale,
}: {
  readonly owner: SectionOwner
  /** As it was solved. */
  readonly section: CrossSectionEntry
  readonly mode: FacetMode
  /** True where numbers have changed since. */
  readonly stale: boolean
}) {
  const [definition, setDefinition] = useState<Definition>('best-fit Gaussian')
  const [said, setSaid] = useState('')
  const figures = useMemo(() => {
    const { centreUm, mfdUm } = mode.widths.gaussian
    const size = `${fixedText(mfdUm.x, 2)} × ${fixedText(mfdUm.y, 2)} µm`
    return {
      map: solvedModeFigure(
        modePicture(mode, section),
        `Quasi-${section.polarisation} mode: intensity of the dominant component. Contours: −3 dB, 1/e² (bold), −20, −30 dB. Dashed: best-fit Gaussian, ${size}.`,
      ),
      cuts: [
        cutLine('x', mode.cuts.x, centreUm.x, mfdUm.x),
        cutLine('y', mode.cuts.y, centreUm.y, mfdUm.y),
      ].map((cut) =>
        solvedCutFigure(cut, `Cross-section along ${cut.name} through the peak; dashed: best-fit Gaussian.`),
      ),
    }
  }, [mode, section])
  const shown = diameterBy(mode, definition)
  const take = () => {
    editProject((draft) =>
      owner.apply(draft, (before) => solvedQuantities(before, mode, definition, section.polarisation)),
    )
    setSaid(`Applied to ${owner.name}. Undo restores the previous values.`)
  }
  return (
    <section aria-label="Solved mode" className={stale ? 'stale' : undefined}>
      <h2>Mode of the cross-section</h2>
      {stale && <p className="stale-note">Out of date: inputs have changed. Solve again.</p>}
      <div className="mode-columns">
        <FigureView figure={figures.map} heightPx={MAP_PX} />
        <ModeNumbers mode={mode} />
      </div>
      <Warnings messages={mode.warnings} />
      <div className="plots">
        {figures.cuts.map((figure) => (
          <FigureView key={figure.sentence} figure={figure} heightPx={CUT_PX} />
        ))}
      </div>
      <div className="take-mode">
        <ChoiceField
          label="MFD definition"
          value={definition}
          choices={DEFINITIONS.map((value) => ({ value, label: value }))}
          onChoose={(value) =>
            setDefinition(DEFINITIONS.find((each) => each === value) ?? 'best-fit Gaussian')
          }
        />
        <button type="button" className="primary" disabled={stale} onClick={take}>
          Apply {fixedText(shown.x, 3)} × {fixedText(shown.y, 3)} µm to {owner.name}
        </button>
        <span role="status" className="quiet">
          {said}
        </span>
      </div>
    </section>
  )
}
