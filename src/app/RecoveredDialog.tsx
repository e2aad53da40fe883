// Projects that could not be shown, or that another tab has saved: to be had as files before they are let go.

import { useState } from 'react'
import type { SetAside } from '../store/saving/keptProject'
import { deleteSetAside, saveSetAside, setAsideName, useSetAside } from '../store/saving/setAside'
import { Dialog } from '../ui/controls/Dialog'

const REASONS: Readonly<Record<SetAside['reason'], string>> = {
  unreadable:
    'The autosaved project from the last session could not be read. It is kept in this browser until it is deleted here.',
  late: 'The project of the last session was found only after another one had been changed or opened. It is kept in this browser until it is deleted here.',
  'other tab':
    'Another tab has saved this version, which differs from the one in this tab. It is kept in this browser until it is deleted here.',
}
const SHOWN_ISSUES = 5

export function RecoveredDialog() {
  const items = useSetAside()
  const [closed, setClosed] = useState(0)
  const [said, setSaid] = useState('')
  return (
    <Dialog
      title="Recovered projects"
      shown={items.length > closed}
      onClose={() => {
        setClosed(items.length)
        setSaid('')
      }}
    >
      {items.map((item) => (
        <section key={item.id} className="recovered" aria-label={setAsideName(item)}>
          <h3>{setAsideName(item)}</h3>
          <p>{REASONS[item.reason]}</p>
          {item.issues.length > 0 && (
            <ul className="recovered-issues">
              {item.issues.slice(0, SHOWN_ISSUES).map((issue) => (
                <li key={issue}>{issue}</li>
              ))}
              {item.issues.length > SHOWN_ISSUES && (
                <li className="quiet">{item.issues.length - SHOWN_ISSUES} more</li>
              )}
            </ul>
          )}
          <div className="dialog-actions">
            <button type="button" className="primary" onClick={() => void saveSetAside(item).then(setSaid)}>
              Download
            </button>
            <button type="button" onClick={() => void deleteSetAside(item)}>
              Delete
            </button>
          </div>
        </section>
      ))}
      <p role="status">{said}</p>
    </Dialog>
  )
}
