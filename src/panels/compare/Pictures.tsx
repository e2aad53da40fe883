// The rows of pictures at the head of the comparison: the mode along the path, the loss by cause, the window at the chip.

import { LOSS_GROUPS } from '../../analysis/compare/lossGroups'
import { offsetExcess, pictureReachUm } from '../../analysis/compare/offsetExcess'
import type { Evaluation } from '../../analysis/results/evaluation'
import { pathStops } from '../../figures/path/pathStops'
import { lossText } from '../../model/quantity/lossText'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { LossBar } from '../../ui/figures/LossBar'
import { PathThumbnail } from '../../ui/figures/PathThumbnail'
import { OffsetWindowPicture, WINDOW_TOP_DB } from './OffsetWindowPicture'

export interface ShownDesign {
  readonly design: Candidate
  /** Null where the design cannot be evaluated. */
  readonly evaluation: Evaluation | null
}

/** A bar reaches at least this many limits, so that the mark of the limit has a place of its own. */
const BAR_LIMITS = 1.5
/** A design that loses far more than the others fills its bar and no longer shrinks theirs. */
const MOST_LIMITS = 3

export function Pictures({
  project,
  designs,
  limitDb,
  columnClass,
}: {
  readonly project: Project
  readonly designs: readonly ShownDesign[]
  readonly limitDb: number
  readonly columnClass: (designId: string) => string | undefined
}) {
  const losses = designs.flatMap(({ evaluation }) => evaluation?.nominalDb ?? [])
  const mostDb = Math.max(BAR_LIMITS * limitDb, Math.min(MOST_LIMITS * limitDb, Math.max(0, ...losses)))
  const jointOf = ({ evaluation }: ShownDesign) => evaluation?.joints.at(-1)
  const reachUm = pictureReachUm(designs.flatMap((each) => jointOf(each) ?? []))
  const row = (
    id: string,
    label: React.ReactNode,
    view: (each: ShownDesign, evaluation: Evaluation) => React.ReactNode,
  ) => (
    <tr data-picture={id} className="compare-picture">
      <th scope="row">{label}</th>
      {designs.map((each) => (
        <td key={each.design.id} className={columnClass(each.design.id)}>
          {each.evaluation === null ? <span className="quiet">–</span> : view(each, each.evaluation)}
        </td>
      ))}
    </tr>
  )
  return (
    <tbody>
      {row('mode', 'Mode along the path', ({ design }, evaluation) => (
        <PathThumbnail
          stops={pathStops(project, design, evaluation)}
          label={`Mode along the path of ${design.name}, not to scale`}
        />
      ))}
      {row(
        'loss',
        <>
          Loss by cause
          <span className="compare-note">dashed: limit {limitDb} dB</span>
        </>,
        ({ design }, evaluation) => (
          <>
            <LossBar lines={evaluation.lines} mostDb={mostDb} limitDb={limitDb} />
            <span className="visually-hidden">
              {design.name}: nominal {lossText(evaluation.nominalDb)} dB
            </span>
          </>
        ),
      )}
      {row(
        'window',
        <>
          Excess loss against offset
          <span className="compare-note">
            ± {reachUm} µm, 0 to {WINDOW_TOP_DB} dB; x solid, y dashed
          </span>
        </>,
        (each, evaluation) => {
          const joint = jointOf(each)
          if (joint === undefined) return <span className="quiet">no joint at the chip</span>
          const excess = offsetExcess(joint, reachUm)
          return (
            <OffsetWindowPicture
              excess={excess}
              reachUm={reachUm}
              label={`Excess loss of ${each.design.name} for offsets up to ± ${reachUm} µm at the chip; nominal ${lossText(evaluation.nominalDb)} dB${excess.isProvisional ? '; provisional' : ''}`}
            />
          )
        },
      )}
    </tbody>
  )
}

/** What the colours of the bars mean. */
export function CauseLegend() {
  return (
    <ul className="cause-legend" aria-label="Causes of loss">
      {LOSS_GROUPS.map(({ id, label }) => (
        <li key={id}>
          <span className="loss-bar" aria-hidden="true">
            <span data-cause={id} />
          </span>
          {label}
        </li>
      ))}
    </ul>
  )
}
