// Whether first light can be found with the numbers of the station, and how long it takes.

import { useMemo } from 'react'
import { hillClimb } from '../../analysis/firstLight/hillClimb'
import { searchPlan } from '../../analysis/firstLight/search'
import type { Evaluation } from '../../analysis/results/evaluation'
import { searchAreaFigure } from '../../figures/firstLight/searchArea'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { STATION_FIELDS, searchStation } from '../../model/words/searchStation'
import { fixedText, withMinus } from '../../numerics/numberText'
import { attempted } from '../../numerics/outcome'
import { jointLossDb } from '../../optics/index'
import { useSelection } from '../../store/selection'
import { editProject } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { CaptureTable, SearchTable } from './SearchTables'

/** Views, sentence, reading and tools around the picture. */
const AROUND_PX = 240
const RAD_PER_DEG = Math.PI / 180

export function FirstLightPanel({
  project,
  candidate,
  evaluation,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}) {
  const station = useMemo(() => searchStation(project.searchStation), [project.searchStation])
  const [room, roomPx] = useRoom()
  const selection = useSelection(candidate)
  const view =
    evaluation.joints.find(({ elementId }) => elementId === selection.id) ?? evaluation.joints.at(-1)
  const outcome = useMemo(() => {
    if (view === undefined) return null
    const driftDb = evaluation.lines.find(({ kind }) => kind === 'drift')?.lossDb ?? 0
    const otherLossDb = evaluation.nominalDb - driftDb - jointLossDb(view.joint)
    return attempted(() =>
      searchPlan(view.joint, otherLossDb, {
        ...station,
        tiltRad: station.tiltDeg * RAD_PER_DEG,
      }),
    )
  }, [view, evaluation, station])
  const figure = useMemo(
    () =>
      outcome?.ok && outcome.value.search !== null
        ? searchAreaFigure(outcome.value.search, station.lateralUm)
        : null,
    [outcome, station.lateralUm],
  )
  const climb = useMemo(
    () =>
      outcome?.ok && outcome.value.searchReserveDb > 0
        ? hillClimb({ reserveDb: outcome.value.searchReserveDb, seed: project.seed })
        : null,
    [outcome, project.seed],
  )
  if (outcome === null) return <p className="quiet">This path has no joint to align.</p>
  const plan = outcome.ok ? outcome.value : null
  const views: readonly ViewChoice[] = [
    {
      id: 'search',
      label: 'Search',
      view: () => (
        <div className="depth-columns">
          <div>
            {!outcome.ok && (
              <p className="complaint" role="alert">
                {outcome.message}
              </p>
            )}
            {plan !== null && (
              <p>
                <strong>
                  {plan.search === null
                    ? 'First light cannot be found: with gap and tilts at their limits the signal on axis is below the detector floor.'
                    : `First light can be found: ${plan.search.raster.most} search points at most.`}
                </strong>{' '}
                Power margin {fixedText(plan.reserveDb, 1)} dB at the working point,{' '}
                {fixedText(plan.searchReserveDb, 1)} dB with gap and tilts at their pre-alignment limits.
              </p>
            )}
            {figure !== null && <FigureView figure={figure} heightPx={figurePx(roomPx, AROUND_PX)} />}
          </div>
          {plan?.search != null && climb !== null && (
            <SearchTable
              search={plan.search}
              climb={climb}
              station={station}
              requirements={project.requirements}
            />
          )}
        </div>
      ),
    },
    ...(plan === null
      ? []
      : [{ id: 'capture', label: 'Capture range', view: () => <CaptureTable plan={plan} /> }]),
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
            Enter the values of your station: initial values are common practice, no source. They are kept in
            the project. Modes are modelled as Gaussian; side lobes of real modes can be detected further out.
          </p>
          <Cautions />
        </>
      ),
    },
  ]
  return (
    <section aria-label="First light" className="views-below">
      {room}
      <Views label="Views of first light" views={views} />
    </section>
  )
}
