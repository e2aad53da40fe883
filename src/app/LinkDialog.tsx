// A link with the whole project: copied, and shown for where copying is blocked.

import { useEffect, useId, useRef, useState } from 'react'
import { issueText } from '../model/issue'
import { fixedText } from '../numerics/numberText'
import { showLink, useLinkShown } from '../store/address/openLink'
import { projectFragment } from '../store/address/projectLink'
import { workbench } from '../store/workbench'
import { Dialog } from '../ui/controls/Dialog'

export function LinkDialog() {
  const shown = useLinkShown()
  return (
    <Dialog title="Link to this project" shown={shown} onClose={() => showLink(false)}>
      <CopyLink />
    </Dialog>
  )
}

/** Makes the link, copies it, and shows it for where copying is blocked. */
function CopyLink() {
  const id = useId()
  const field = useRef<HTMLInputElement>(null)
  const [link, setLink] = useState('')
  const [said, setSaid] = useState('Creating the link…')
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
      const size = `${fixedText(made.length / 1000, 1)} kB`
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
        The link holds the whole project. It opens without a server: nothing is uploaded, and anyone with the
        link can open the project.
      </p>
    </>
  )
}
