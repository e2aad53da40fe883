// A design at the head of its column: its place, its verdicts in numbers, and what can be done with it.

import type { ComparisonColumn } from '../../analysis/compare/comparison'
import { Menu } from '../../ui/controls/Menu'
import type { CompareView } from './compareView'

function verdictText({ met, notMet, notKnown, issues }: ComparisonColumn): string {
  if (issues.length > 0) return 'cannot be evaluated'
  const parts = [
    [met, 'met'],
    [notMet, 'not met'],
    [notKnown, 'not evaluated'],
  ] as const
  return parts
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${count} ${word}`)
    .join(', ')
}

export function ColumnHead({
  column,
  view,
  className,
}: {
  readonly column: ComparisonColumn
  readonly view: CompareView
  readonly className: string | undefined
}) {
  const { candidateId, name } = column
  const isBaseline = view.baselineId === candidateId
  const isSelected = view.selectedId === candidateId
  return (
    <th
      scope="col"
      aria-label={name}
      data-design={candidateId}
      className={['compare-head', className ?? ''].join(' ').trim()}
    >
      <span className="compare-title">
        <button
          type="button"
          className="compare-name"
          title={`${name}: open in Design`}
          onClick={() => view.open(candidateId)}
        >
          {name}
        </button>
        <Menu
          label={`Actions for ${name}`}
          className="subtle compare-actions"
          align="end"
          entries={() => [
            { id: 'open', label: 'Open in Design', onChoose: () => view.open(candidateId) },
            {
              id: 'select',
              label: isSelected ? 'Deselect for review' : 'Select for review',
              onChoose: () => view.select(isSelected ? '' : candidateId),
            },
            {
              id: 'baseline',
              label: isBaseline ? 'Remove as baseline' : 'Use as baseline',
              onChoose: () => view.pin(isBaseline ? '' : candidateId),
            },
            { id: 'line', break: true },
            { id: 'duplicate', label: 'Duplicate', onChoose: () => view.duplicate(candidateId) },
            { id: 'hide', label: 'Hide', onChoose: () => view.hide(candidateId) },
          ]}
        >
          <span aria-hidden="true">⋯</span>
        </Menu>
      </span>
      <span className="compare-summary">
        {verdictText(column)}
        {isSelected && <span className="compare-badge">selected</span>}
        {isBaseline && <span className="compare-badge">baseline</span>}
      </span>
    </th>
  )
}
