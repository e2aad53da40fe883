// The spot or magnification that would fit the chip best, in the table of optimum values. It belongs to a part, and so it
// stays pinned until the user frees it.

import type { FreedPart, PartFit } from '../../analysis/sizing/partFits'
import type { Project } from '../../model/schema/project'
import { plainText, significantText } from '../../numerics/numberText'
import { coreText } from '../../ui/text/coreText'

const shown = ({ name }: PartFit, value: number) =>
  name === 'magnification' ? `× ${significantText(value, 3)}` : `${plainText(value, 4)} µm`

/** Whether the part is defined by the number of the row itself, so that nothing needs adding. */
const isItself = ({ name, dimension }: PartFit) =>
  name === 'spot' && dimension !== null && !dimension.id.endsWith('/radius')

export function PartFitRows({
  project,
  fits,
  changed,
  onFree,
}: {
  readonly project: Project
  readonly fits: readonly PartFit[]
  /** What freeing has changed in the parts. */
  readonly changed: readonly FreedPart[]
  readonly onFree: (fit: PartFit, free: boolean) => void
}) {
  return fits.map((fit) => {
    const { elementId, name, label, now, best, free, dimension } = fit
    const change = changed.find((each) => each.dimension.id === dimension?.id)
    const path = dimension?.paths[0]
    return (
      <tr key={`${elementId}/${name}`}>
        <th scope="row">{label}</th>
        <td className="number">{shown(fit, now)}</td>
        <td className="number">
          {shown(fit, best)}
          {change !== undefined && path !== undefined && !isItself(fit) && (
            <span className="quiet part-change">
              {change.dimension.label.replace(/^magnification, by the /, '')}:{' '}
              {coreText(project, path, change.dimension.rule, change.now)} →{' '}
              {coreText(project, path, change.dimension.rule, change.best)}
            </span>
          )}
        </td>
        <td>
          <input
            type="checkbox"
            aria-label={`Pin ${label}`}
            checked={!free}
            disabled={dimension === null}
            title={dimension === null ? 'Set by more than one part parameter.' : undefined}
            onChange={(event) => onFree(fit, !event.target.checked)}
          />
        </td>
      </tr>
    )
  })
}
