// The inner size that a drawing has on the page, so that it is drawn pixel for pixel.

import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

export interface ElementSize {
  readonly widthPx: number
  readonly heightPx: number
}

const UNKNOWN: ElementSize = { widthPx: 0, heightPx: 0 }

/** To be set on an element, and its inner size in px; 0 until it is known. */
export function useSize<E extends HTMLElement = HTMLDivElement>(): readonly [
  RefObject<E | null>,
  ElementSize,
] {
  const holder = useRef<E>(null)
  const [size, setSize] = useState(UNKNOWN)
  useLayoutEffect(() => {
    const element = holder.current
    if (element === null) return
    const measure = () =>
      setSize((before) => {
        const { clientWidth: widthPx, clientHeight: heightPx } = element
        return before.widthPx === widthPx && before.heightPx === heightPx ? before : { widthPx, heightPx }
      })
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [holder, size]
}
