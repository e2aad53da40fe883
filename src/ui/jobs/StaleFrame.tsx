// A result on screen, marked where it is out of date.

import type { ReactNode } from 'react'
import type { Staleness } from './staleness'

export function StaleFrame({
  staleness,
  children,
}: {
  readonly staleness: Staleness
  readonly children: ReactNode
}) {
  const { reason } = staleness
  return (
    <div className={reason === '' ? undefined : 'stale'}>
      {reason !== '' && <p className="stale-note">{reason}</p>}
      {children}
    </div>
  )
}

export function RunAssumptions({ texts }: { readonly texts: readonly string[] }) {
  return (
    <details>
      <summary>Assumptions of this run</summary>
      <ul>
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </details>
  )
}
