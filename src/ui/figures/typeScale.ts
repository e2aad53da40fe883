// How much larger than on a laptop the page's type is (ui/css/base.css): pictures with words grow with it.

const BASE_PX = 14

let known = { forWidthPx: Number.NaN, scale: 1 }

/** 1 where the root's type has its smallest size. The root follows the width of the window alone. */
export function typeScale(): number {
  const { innerWidth } = window
  if (known.forWidthPx !== innerWidth) {
    const rootPx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
    known = { forWidthPx: innerWidth, scale: Math.max(1, rootPx / BASE_PX) }
  }
  return known.scale
}
