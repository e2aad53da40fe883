// Projects that could not be shown, or that another tab has saved: to be opened or had as files before they are let go.

import { useState } from 'react'
import type { SetAside } from '../store/saving/keptProject'
import {
  deleteSetAside,
  openSetAside,
  saveSetAside,
  setAsideName,
  useSetAside,
} from '../store/saving/setAside'
import { Dialog } from '../ui/controls/Dialog'
import { FaultList } from '../ui/controls/FaultList'

const REASONS: Readonly<Record<SetAside['reason'], string>> = {
  unreadable: 'The autosaved project from the last session could not be read.',
  late: 'The project from the last session was found only after another one had been changed or opened.',
  'other tab': 'Another tab has saved this version, which differs from the one in this tab.',
}

export function RecoveredDialog() {
  const items = useSetAside()
  const [closed, setClosed] = useState(0)
  const [said, setSaid] = useState('')
  const [deleting, setDeleting] = useState<SetAside | null>(null)
  const close = () => {
    setClosed(items.length)
    setSaid('')
    setDeleting(null)
  }
  const open = async (item: SetAside) => {
    const { opened, fault } = await openSetAside(item)
    if (opened) close()
    else setSaid(fault)
  }
  return (
    <Dialog title="Recovered projects" shown={items.length > closed} onClose={close}>
      {items.map((item) => (
        <section key={item.id} className="recovered" aria-label={setAsideName(item)}>
          <h3>{setAsideName(item)}</h3>
          <p>{REASONS[item.reason]} It is kept in this browser until it is deleted here.</p>
          {item.issues.length > 0 && <FaultList faults={item.issues} />}
          {deleting === item ? (
            <div className="dialog-actions">
              <span>Delete this project permanently?</span>
              <button type="button" onClick={() => setDeleting(null)}>
                Cancel
              </button>
              <button type="button" onClick={() => void deleteSetAside(item)}>
                Delete permanently
              </button>
            </div>
          ) : (
            <div className="dialog-actions">
              <button type="button" className="primary" onClick={() => void saveSetAside(item).then(setSaid)}>
                Download
              </button>
              {item.reason !== 'unreadable' && (
                <button type="button" onClick={() => void open(item)}>
                  Open
                </button>
              )}
              <button type="button" onClick={() => setDeleting(item)}>
                Delete
              </button>
            </div>
          )}
        </section>
      ))}
      <p role="status">{said}</p>
    </Dialog>
  )
}
