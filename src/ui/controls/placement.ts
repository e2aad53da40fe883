// Position of an overlay: below its anchor, above it if the space below is too small, always inside the window.

const APART_PX = 4
const EDGE_PX = 6

/**
 * Places `over`, which is shown and of fixed position, next to `anchor`.
 * `align` says which inline edges meet; `end` suits what opens at the right of the screen.
 */
export function placeBeside(over: HTMLElement, anchor: Element, align: 'start' | 'end' = 'start'): void {
  const at = anchor.getBoundingClientRect()
  const { offsetWidth: width, offsetHeight: height } = over
  const below = at.bottom + APART_PX
  const above = at.top - APART_PX - height
  const fitsBelow = below + height <= window.innerHeight - EDGE_PX
  const left = align === 'start' ? at.left : at.right - width
  const within = (px: number, size: number, room: number) =>
    Math.max(EDGE_PX, Math.min(px, room - size - EDGE_PX))
  over.style.left = `${within(left, width, window.innerWidth)}px`
  over.style.top = `${within(fitsBelow || above < EDGE_PX ? below : above, height, window.innerHeight)}px`
}
