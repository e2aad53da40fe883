// How the columns are ordered and what they are set against.

import type { Comparison } from '../../analysis/compare/comparison'
import type { RankedBy } from '../../analysis/proposals/ranking'
import { Menu } from '../../ui/controls/Menu'
import type { CompareView } from './compareView'

const FIGURE_NAMES: Readonly<Record<RankedBy, string>> = {
  nominal: 'nominal loss',
  RSS: 'RSS',
  'worst case': 'worst case',
  percentile: 'percentile',
}

export function SortAndBaseline({
  comparison,
  view,
  lossBasis,
}: {
  readonly comparison: Comparison
  readonly view: CompareView
  readonly lossBasis: RankedBy
}) {
  const sorted = comparison.rows.find(({ id }) => id === view.sort?.rowId)
  const byVerdicts = `requirements met, then ${FIGURE_NAMES[lossBasis]}`
  const order = sorted === undefined ? byVerdicts : sorted.label.toLowerCase()
  const base = comparison.columns.find(({ candidateId }) => candidateId === view.baselineId)
  return (
    <>
      <Menu
        label={`Ranked by ${order}`}
        className="subtle"
        entries={() => [
          {
            id: 'verdicts',
            label: `Requirements met, then ${FIGURE_NAMES[lossBasis]}`,
            checked: view.sort === null,
            onChoose: () => view.setSort(null),
          },
          ...['nominal', 'rss', 'worst', 'return-loss', 'x'].flatMap((rowId) => {
            const row = comparison.rows.find(({ id }) => id === rowId)
            if (row === undefined) return []
            return {
              id: rowId,
              label: `${row.group}: ${row.label.toLowerCase()}`,
              checked: view.sort?.rowId === rowId,
              onChoose: () =>
                view.setSort({ rowId, order: row.better === 'higher' ? 'descending' : 'ascending' }),
            }
          }),
        ]}
      >
        ranked by {order} ▾
      </Menu>
      <Menu
        label={`Baseline: ${base?.name ?? 'none'}`}
        className="subtle"
        entries={() => [
          { id: 'none', label: 'None', checked: base === undefined, onChoose: () => view.pin('') },
          ...comparison.columns.map(({ candidateId, name }) => ({
            id: candidateId,
            label: name,
            checked: candidateId === view.baselineId,
            onChoose: () => view.pin(candidateId),
          })),
        ]}
      >
        baseline: {base?.name ?? 'none'} ▾
      </Menu>
      <label className="compare-only">
        <input
          type="checkbox"
          checked={view.onlyDiffering}
          onChange={(event) => view.setOnlyDiffering(event.target.checked)}
        />
        Differences only
      </label>
      <label className="compare-only">
        <input
          type="checkbox"
          checked={view.reasonsShown}
          onChange={(event) => view.setReasonsShown(event.target.checked)}
        />
        Reasons
      </label>
      {view.hiddenCount > 0 && (
        <button type="button" className="subtle" onClick={view.showAll}>
          Show {view.hiddenCount} hidden
        </button>
      )}
    </>
  )
}
