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

/** How many of `count` letters end with a whole word, if these are most of them; all of them otherwise. */
function wholeWords(letters: readonly string[], count: number): number {
  if (letters[count] === ' ') return count
  const end = letters.lastIndexOf(' ', count - 1)
  return end > 0.6 * count ? end : count
}

const joined = (letters: readonly string[]) =>
  letters
    .join('')
    .trim()
    .replace(/[,;:]$/, '')

/** The beginning of a text, at most `mostPx` wide at `sizePx`; whole where it fits. */
export function cutOff(text: string, mostPx: number, sizePx = 13): string {
  const { letters, most, fits } = lettersOf(text, mostPx, sizePx)
  if (fits) return letters.join('')
  const cut = fittedText(`${letters.slice(0, most).join('')}${ELLIPSIS}`, mostPx, sizePx)
  const count = [...cut.replace(/…+$/, '')].length
  return `${joined(letters.slice(0, wholeWords(letters, count)))}${ELLIPSIS}`
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
  const start = letters.slice(0, wholeWords(letters, head))
  const end = letters.slice(letters.length - wholeWords(letters.toReversed(), tail))
  return `${joined(start)}${ELLIPSIS}${joined(end)}`
}
