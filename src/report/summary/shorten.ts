// Texts of people on a page that has room for one line each: shortened in the middle, because names differ at both ends.

import { textWidthPx } from '../../figures/render/textWidth'

const ELLIPSIS = '…'

/** One line of at most `mostPx` at `sizePx`; whole where it fits. */
export function shortened(text: string, mostPx: number, sizePx = 13): string {
  // More letters than fit even of the narrowest need not be measured.
  const most = Math.ceil(mostPx / (sizePx * 0.2))
  const letters = [...text.replace(/\s+/g, ' ').trim()]
  const whole = letters.join('')
  if (letters.length <= most && textWidthPx(whole, sizePx) <= mostPx) return whole
  const room = mostPx - textWidthPx(ELLIPSIS, sizePx)
  let [head, tail, usedPx] = [0, 0, 0]
  for (let count = 0; count < most; count++) {
    const atHead = head <= tail
    const letter = (atHead ? letters[head] : letters[letters.length - 1 - tail]) ?? ''
    const widthPx = textWidthPx(letter, sizePx)
    if (usedPx + widthPx > room) break
    usedPx += widthPx
    if (atHead) head += 1
    else tail += 1
  }
  const end = tail === 0 ? '' : letters.slice(-tail).join('')
  return `${letters.slice(0, head).join('').trimEnd()}${ELLIPSIS}${end.trimStart()}`
}
