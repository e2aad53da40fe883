// Texts of people on a page that has room for one line each: shortened in the middle, because names differ at both ends.

import { fittedText, textWidthPx } from '../../figures/render/textWidth'

const ELLIPSIS = '…'

/** The text without breaks, and no more letters of it than fit even of the narrowest. */
function lettersOf(text: string, mostPx: number, sizePx: number) {
  const letters = [...text.replace(/\s+/g, ' ').trim()]
  const most = Math.ceil(mostPx / (sizePx * 0.2))
  const fits = letters.length <= most && textWidthPx(letters.join(''), sizePx) <= mostPx
  return { letters, most, fits }
}

/** The beginning of a text, at most `mostPx` wide at `sizePx`; whole where it fits. */
export function cutOff(text: string, mostPx: number, sizePx = 13): string {
  const { letters, most, fits } = lettersOf(text, mostPx, sizePx)
  return fits ? letters.join('') : fittedText(`${letters.slice(0, most).join('')}${ELLIPSIS}`, mostPx, sizePx)
}

/** One line of at most `mostPx` at `sizePx`; whole where it fits. */
export function shortened(text: string, mostPx: number, sizePx = 13): string {
  const { letters, most, fits } = lettersOf(text, mostPx, sizePx)
  if (fits) return letters.join('')
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
