// Which limits of the tolerances make the worst case.

import type { Evaluation } from '../../analysis/results/evaluation'
import { Fold } from '../../ui/controls/Fold'

export function WorstCornerSettings({ evaluation }: { readonly evaluation: Evaluation }) {
  const { settings, exhaustive } = evaluation.worstCorner
  if (settings.length === 0) return null
  return (
    <Fold summary="Worst case: limit of each tolerance">
      {() => (
        <>
          <ul>
            {settings.map((setting) => (
              <li key={setting.path.join('/')}>
                {setting.label} {setting.sign === 1 ? 'at its upper limit' : 'at its lower limit'}
              </li>
            ))}
          </ul>
          <p className="quiet">
            {exhaustive
              ? 'Exhaustive: every combination of limits was evaluated.'
              : 'Search, not exhaustive: limits were flipped singly and in pairs from several starting points.'}
          </p>
        </>
      )}
    </Fold>
  )
}
