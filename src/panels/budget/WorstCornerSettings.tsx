// Which ends of the tolerances make the worst corner.

import type { Evaluation } from '../../analysis/results/evaluation'

export function WorstCornerSettings({ evaluation }: { readonly evaluation: Evaluation }) {
  const { settings, exhaustive } = evaluation.worstCorner
  if (settings.length === 0) return null
  return (
    <details>
      <summary>Worst corner: where each tolerance ends</summary>
      <ul>
        {settings.map((setting) => (
          <li key={setting.path.join('/')}>
            {setting.label} {setting.sign === 1 ? 'at its upper end' : 'at its lower end'}
          </li>
        ))}
      </ul>
      <p className="quiet">
        {exhaustive
          ? 'Every corner was tried.'
          : 'Found by climbing from several corners, flipping single signs and pairs; not every corner was tried.'}
      </p>
    </details>
  )
}
