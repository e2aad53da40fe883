// How many of the chips in a row fit it, so that the row stays one row.

import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

const MORE_PX = 110
const APART_PX = 8

/** A holder for the chips and how many of its first children to show. `key` changes where the chips do. */
export function useFitting(key: string): readonly [RefObject<HTMLDivElement | null>, number] {
  const holder = useRef<HTMLDivElement>(null)
  const widths = useRef<readonly number[]>([])
  const [fitting, setFitting] = useState(Number.POSITIVE_INFINITY)

  // biome-ignore lint/correctness/useExhaustiveDependencies: other chips have other widths
  useLayoutEffect(() => {
    const { current } = holder
    if (current === null) return
    const chips = [...current.querySelectorAll<HTMLElement>(':scope > span')]
    const measure = () => {
      for (const chip of chips) chip.hidden = false
      widths.current = chips.map((chip) => chip.offsetWidth)
    }
    const arrange = () => {
      let usedPx = 0
      const room = current.clientWidth
      const all = widths.current.reduce((sum, width) => sum + width + APART_PX, 0) <= room + APART_PX
      const fits = widths.current.findIndex((width) => {
        usedPx += width + APART_PX
        return usedPx > room - MORE_PX
      })
      const next = all || fits < 0 ? Number.POSITIVE_INFINITY : fits
      for (const [at, chip] of chips.entries()) chip.hidden = at >= next
      setFitting(next)
    }
    measure()
    arrange()
    const observer = new ResizeObserver(arrange)
    observer.observe(current)
    return () => observer.disconnect()
  }, [key])
  return [holder, fitting]
}
