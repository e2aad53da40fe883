// Views of one result, one at a time, so that none has to be scrolled to; at the end of their row what starts the work.

import { type ReactNode, useState } from 'react'
import './tabs.css'

export interface ViewChoice {
  readonly id: string
  readonly label: string
  readonly view: () => ReactNode
}

export function Views({
  label,
  views,
  opensAt = '',
  tools,
}: {
  readonly label: string
  readonly views: readonly ViewChoice[]
  /** What is shown until one is chosen, or where the chosen one is gone; else the first. */
  readonly opensAt?: string
  readonly tools?: ReactNode
}) {
  const [chosen, setChosen] = useState('')
  const shown = views.find(({ id }) => id === chosen) ?? views.find(({ id }) => id === opensAt) ?? views[0]
  return (
    <>
      <div className="views">
        {views.length > 1 && (
          <fieldset className="view-list" aria-label={label}>
            {views.map((each) => (
              <button
                key={each.id}
                type="button"
                className="subtle"
                aria-pressed={each === shown}
                onClick={() => setChosen(each.id)}
              >
                {each.label}
              </button>
            ))}
          </fieldset>
        )}
        {tools}
      </div>
      {shown?.view()}
    </>
  )
}
