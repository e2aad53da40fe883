// How many of the chips in a row fit it, so that the row stays one row.

import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

const MORE_PX = 110
const APART_PX = 8

/** A holder for the chips, named in their order, and how many of its first children to show. */
export function useFitting(names: readonly string[]): readonly [RefObject<HTMLDivElement | null>, number] {
  const holder = useRef<HTMLDivElement>(null)
  /** Widths by name: chips that only change places, as in a drag, are not measured again. */
  const known = useRef(new Map<string, number>())
  /** As last observed: to ask for it in the middle of a frame would lay out the page once more. */
  const roomPx = useRef<number | null>(null)
  const key = names.join('\n')
  const [fitting, setFitting] = useState(Number.POSITIVE_INFINITY)
  /** Shows the chips that fit now. */
  const arranged = useRef(() => {})

  // biome-ignore lint/correctness/useExhaustiveDependencies: other chips have other widths
  useLayoutEffect(() => {
    const { current } = holder
    if (current === null) return
    const chips = [...current.querySelectorAll<HTMLElement>(':scope > span')]
    const unknown = names.flatMap((name, at) => {
      const chip = chips[at]
      return chip === undefined || known.current.has(name) ? [] : [[name, chip] as const]
    })
    for (const [, chip] of unknown) chip.hidden = false
    const measured = new Map(unknown.map(([name, chip]) => [name, chip.offsetWidth]))
    const widths = names.map((name) => measured.get(name) ?? known.current.get(name) ?? 0)
    // Letters of a stand-in font have other widths.
    if (document.fonts.status === 'loaded') {
      for (const [name, width] of measured) known.current.set(name, width)
    }
    const arrange = () => {
      let usedPx = 0
      const room = roomPx.current ?? current.clientWidth
      const all = widths.reduce((sum, width) => sum + width + APART_PX, 0) <= room + APART_PX
      const fits = widths.findIndex((width) => {
        usedPx += width + APART_PX
        return usedPx > room - MORE_PX
      })
      const next = all || fits < 0 ? Number.POSITIVE_INFINITY : fits
      for (const [at, chip] of chips.entries()) chip.hidden = at >= next
      setFitting(next)
    }
    arranged.current = arrange
    arrange()
  }, [key])

  // One observer for good: a drag changes the chips in most of its frames.
  const hasChips = names.length > 0
  useLayoutEffect(() => {
    const { current } = holder
    if (current === null || !hasChips) return
    const observer = new ResizeObserver(([entry]) => {
      roomPx.current = entry?.contentRect.width ?? null
      arranged.current()
    })
    observer.observe(current)
    return () => observer.disconnect()
  }, [hasChips])
  return [holder, fitting]
}
