// The views of first light: the search with its picture, capture ranges, and the numbers of the station.

import { type ReactNode, useMemo } from 'react'
import { searchAreaFigure } from '../../figures/firstLight/searchArea'
import type { Project } from '../../model/schema/project'
import { type SearchStation, STATION_FIELDS } from '../../model/words/searchStation'
import { fixedText, unbroken, withMinus } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { Complaint } from '../../ui/controls/Complaint'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { CaptureTable, type FoundSearch, SearchTable } from './SearchTables'

/** Views, sentence, reading and tools around the picture. */
const AROUND_PX = 240

export function FirstLightViews({
  project,
  station,
  found,
  gaussian = null,
  complaint,
  progress = null,
  model,
}: {
  readonly project: Project
  readonly station: SearchStation
  readonly found: FoundSearch | null
  /** For Gaussian modes, next to the result by field overlap. */
  readonly gaussian?: FoundSearch | null
  readonly complaint: string
  readonly progress?: ReactNode
  /** A sentence on what the modes are modelled as. */
  readonly model: string
}) {
  const [room, roomPx] = useRoom()
  const plan = found?.plan ?? null
  const search = plan?.search ?? null
  const figure = useMemo(
    () => (search === null ? null : searchAreaFigure(search, station.lateralUm)),
    [search, station.lateralUm],
  )
  const views: readonly ViewChoice[] = [
    {
      id: 'search',
      label: 'Search',
      view: () => (
        <div className="depth-columns">
          <div>
            <Complaint text={complaint} />
            {plan !== null && (
              <p>
                <strong>
                  {search === null
                    ? 'First light cannot be found: within the pre-alignment limits of gap and tilts the signal on axis can be below the detector floor.'
                    : `First light can be found: ${search.raster.most} search points at most.`}
                </strong>{' '}
                {unbroken(
                  `Power margin ${fixedText(plan.reserveDb, 1)} dB at the working point, at least ${fixedText(plan.searchReserveDb, 1)} dB within the pre-alignment limits of gap and tilts.`,
                )}
              </p>
            )}
            {figure !== null && <FigureView figure={figure} heightPx={figurePx(roomPx, AROUND_PX)} />}
          </div>
          {found !== null && found.climb !== null && (
            <SearchTable
              found={found}
              gaussian={gaussian}
              station={station}
              requirements={project.requirements}
            />
          )}
        </div>
      ),
    },
    ...(plan === null
      ? []
      : [
          {
            id: 'capture',
            label: 'Capture range',
            view: () => (
              <div className="table-beside">
                <CaptureTable plan={plan} gaussian={gaussian?.plan ?? null} />
                <div>
                  <p className="quiet">
                    –: the signal stays detectable within the range examined (gap from contact to 50 mm, tilt
                    ± 46°, roll ± 90°).
                  </p>
                  <p className="quiet">{model}</p>
                </div>
              </div>
            ),
          },
        ]),
    {
      id: 'station',
      label: 'Station',
      view: () => (
        <>
          <div className="run-settings">
            {STATION_FIELDS.map(({ name, label, range }) => (
              <TextField
                key={name}
                numeric
                label={label}
                text={withMinus(String(station[name]))}
                onCommit={numberCommit(label, range, false, (value) =>
                  editProject((draft) => {
                    draft.searchStation = { ...draft.searchStation, [name]: value }
                  }),
                )}
              />
            ))}
          </div>
          <p className="quiet">
            Enter the values of your station: the initial values are common practice, without a source. They
            are stored in the project. {model}
          </p>
          <Cautions />
        </>
      ),
    },
  ]
  return (
    <section aria-label="First light" className="views-below">
      {room}
      {progress}
      <Views label="Views of first light" views={views} />
    </section>
  )
}
