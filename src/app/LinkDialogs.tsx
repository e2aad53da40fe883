// A link with the whole project: the one to copy, and the one that was opened over other work.

import { useEffect, useId, useRef, useState } from 'react'
import { issueText } from '../model/issue'
import { settleOffer, showLink, useLinkOffer } from '../store/address/linkOffer'
import { projectFragment } from '../store/address/projectLink'
import { commandOf } from '../store/commands'
import { refuse } from '../store/refusals'
import { useWorkbench, workbench } from '../store/workbench'
import { Dialog } from '../ui/controls/Dialog'

export function LinkDialogs() {
  const offered = useLinkOffer((state) => state.project)
  const copying = useLinkOffer((state) => state.copying)
  const openName = useWorkbench((state) => state.project.name)
  return (
    <>
      <Dialog title="Link to this project" shown={copying} onClose={() => showLink(false)}>
        <CopyLink />
      </Dialog>
      <Dialog
        title="Open the project of this link?"
        shown={offered !== null}
        onClose={() => settleOffer(false)}
      >
        <p>
          The link holds <strong>{offered?.name}</strong>. It would replace <strong>{openName}</strong>, which
          is kept in this browser only unless you save it to a file.
        </p>
        <div className="dialog-actions">
          <button type="button" onClick={() => settleOffer(false)}>
            Keep {openName}
          </button>
          <button type="button" onClick={() => void commandOf('save').run().then(refuse)}>
            Save it to a file…
          </button>
          <button type="button" className="primary" onClick={() => settleOffer(true)}>
            Open the link
          </button>
        </div>
      </Dialog>
    </>
  )
}

/** Makes the link, copies it, and shows it for where copying is blocked. */
function CopyLink() {
  const id = useId()
  const field = useRef<HTMLInputElement>(null)
  const [link, setLink] = useState('')
  const [said, setSaid] = useState('Making the link…')
  useEffect(() => {
    let gone = false
    const make = async () => {
      const result = await projectFragment(workbench.getState().project)
      if (gone) return
      if (!result.ok) {
        setSaid(result.issues.map(issueText).join(' '))
        return
      }
      const made = `${location.href.replace(/#.*$/, '')}${result.value}`
      setLink(made)
      const size = `${(made.length / 1000).toFixed(1)} kB`
      await navigator.clipboard.writeText(made).then(
        () => setSaid(`Link copied (${size}).`),
        () => setSaid(`Copying is blocked by the browser: copy the link below (${size}).`),
      )
    }
    void make()
    return () => {
      gone = true
    }
  }, [])
  return (
    <>
      <p role="status">{said}</p>
      {link !== '' && (
        <div className="field">
          <label htmlFor={id}>Link</label>
          <input ref={field} id={id} readOnly value={link} onFocus={() => field.current?.select()} />
        </div>
      )}
      <p className="quiet">
        The link holds the whole project. It opens without a server: nothing is sent anywhere, and whoever has
        the link has the project.
      </p>
    </>
  )
}
