// What is scrolled out of sight is not drawn: a drag moves only what can be seen.

import { type ReactNode, useEffect, useRef, useState } from 'react'

export function WhenSeen({
  heightPx,
  children,
}: {
  /** Room that is kept for it while it is not drawn. */
  readonly heightPx: number
  readonly children: ReactNode
}) {
  const holder = useRef<HTMLDivElement>(null)
  const [seen, setSeen] = useState(false)
  useEffect(() => {
    const { current } = holder
    if (current === null) return
    const observer = new IntersectionObserver((entries) => setSeen(entries.at(-1)?.isIntersecting === true))
    observer.observe(current)
    return () => observer.disconnect()
  }, [])
  return (
    <div ref={holder} style={{ minBlockSize: heightPx }}>
      {seen && children}
    </div>
  )
}
