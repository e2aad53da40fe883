// First light at the selected joint: by its real fields, computed in a worker, where it has any; by Gaussians elsewhere and until then.

import { useMemo } from 'react'
import { RELAY_GAUSSIAN_DB, RELAY_RESOLVED_DB } from '../../analysis/field/relayLimits'
import { hillClimb } from '../../analysis/firstLight/hillClimb'
import { searchPlan } from '../../analysis/firstLight/search'
import { type SearchSubject, searchSubject } from '../../analysis/firstLight/searchSubject'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import type { Project } from '../../model/schema/project'
import { searchStation } from '../../model/words/searchStation'
import { attempted } from '../../numerics/outcome'
import { useSelection } from '../../store/selection'
import { Progress } from '../../ui/jobs/Progress'
import { useFieldJob } from '../../ui/jobs/useFieldJob'
import { FirstLightViews } from './FirstLightViews'
import type { FoundSearch } from './SearchTables'

const GAUSSIAN_MODEL = 'Modes are modelled as Gaussian; side lobes of real modes can be detected further out.'
const RAD_PER_DEG = Math.PI / 180

export function FirstLightPanel({ project, design, evaluation }: EvaluatedDesign) {
  const station = useMemo(() => {
    const numbers = searchStation(project.searchStation)
    return { ...numbers, tiltRad: numbers.tiltDeg * RAD_PER_DEG }
  }, [project.searchStation])
  const selection = useSelection(design)
  const view =
    evaluation.joints.find(({ elementId }) => elementId === selection.id) ?? evaluation.joints.at(-1)
  const subject = useMemo(
    () => (view === undefined ? null : searchSubject(evaluation, view)),
    [evaluation, view],
  )
  const gaussian = useMemo(() => {
    if (subject === null) return null
    return attempted((): FoundSearch => {
      const plan = searchPlan(subject.joint, subject.otherLossDb, station, subject.leastGapUm)
      const { narrowest } = plan
      return {
        plan,
        climb: narrowest && hillClimb({ reserveDb: narrowest.reserveDb, seed: project.seed }),
      }
    })
  }, [subject, station, project.seed])
  if (subject === null || gaussian === null) return <p className="quiet">This path has no joint to align.</p>
  const found = gaussian.ok ? gaussian.value : null
  if (subject.fields === null || found === null)
    return (
      <FirstLightViews
        project={project}
        station={station}
        found={found}
        complaint={gaussian.ok ? '' : gaussian.message}
        model={GAUSSIAN_MODEL}
      />
    )
  return (
    <FieldFirstLight
      project={project}
      station={station}
      gaussian={found}
      subject={subject}
      fields={subject.fields}
    />
  )
}

function FieldFirstLight({
  project,
  station,
  gaussian,
  subject: { joint, otherLossDb, leastGapUm },
  fields,
}: {
  readonly project: Project
  readonly station: Parameters<typeof FirstLightViews>[0]['station'] & { readonly tiltRad: number }
  readonly gaussian: FoundSearch
  readonly subject: SearchSubject
  readonly fields: NonNullable<SearchSubject['fields']>
}) {
  const { answer, message, progress, busy } = useFieldJob('firstLight', {
    ...fields,
    joint,
    otherLossDb,
    leastGapUm,
    station,
    seed: project.seed,
  })
  const isDone = answer !== null && !busy
  const by =
    fields.relay === null
      ? 'the fields of both modes'
      : `ray tracing through the real lenses up to a joint loss of ${RELAY_RESOLVED_DB} dB, Gaussian values above ${RELAY_GAUSSIAN_DB} dB and a transition between them, because ray tracing does not resolve such poses, and aberrated light can be detected further out`
  return (
    <FirstLightViews
      project={project}
      station={station}
      found={isDone ? answer : gaussian}
      gaussian={isDone ? gaussian : null}
      complaint={message === '' ? '' : `${message}. The values shown are Gaussian.`}
      progress={<Progress label="Computing the fields" share={progress} />}
      model={
        isDone
          ? `Computed with ${by}. Gaussian values are in brackets where they differ. The capture range ends where the signal first falls to the floor: side lobes beyond it can still be detected.`
          : message === ''
            ? 'Modes are modelled as Gaussian until the fields are computed.'
            : GAUSSIAN_MODEL
      }
    />
  )
}
