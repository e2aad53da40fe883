// The guide: its pages at the left, the selected one next to them.

import { useEffect, useState } from 'react'
import { openHelp, useHelp } from '../../store/help'
import { GuideText } from './GuideText'
import { GUIDE_PAGES, guideText } from './guidePages'

export function Guide() {
  const page = useHelp((state) => state.page)
  const [text, setText] = useState<string | null>('')
  useEffect(() => {
    let gone = false
    guideText(page).then(
      (loaded) => {
        if (!gone) setText(loaded)
      },
      () => {
        if (!gone) setText(null)
      },
    )
    return () => {
      gone = true
    }
  }, [page])
  return (
    <div className="guide">
      <nav aria-label="Guide pages">
        {GUIDE_PAGES.map(([id, title]) => (
          <button
            key={id}
            type="button"
            aria-current={id === page ? 'page' : undefined}
            onClick={() => openHelp('guide', id)}
          >
            {title}
          </button>
        ))}
      </nav>
      <div className="guide-text">
        {text === null ? (
          <p className="complaint">This page could not be loaded.</p>
        ) : (
          <GuideText markdown={text} />
        )}
      </div>
    </div>
  )
}
