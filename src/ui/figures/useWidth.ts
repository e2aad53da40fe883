// The width that a drawing has on the page.

import { type RefObject, useEffect, useRef, useState } from 'react'

/** To be set on an element, and its inner width in px; 0 until it is known. */
export function useWidth(): readonly [RefObject<HTMLDivElement | null>, number] {
  const holder = useRef<HTMLDivElement>(null)
  const [widthPx, setWidthPx] = useState(0)
  useEffect(() => {
    const element = holder.current
    if (element === null) return
    const observer = new ResizeObserver(() => setWidthPx(element.clientWidth))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [holder, widthPx]
}
