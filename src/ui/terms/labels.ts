// Which elements of a page are labels, and which labels belong to what has the focus or the pointer.

export type TermLookup = (label: string) => string | undefined

/** `data-term` names an entry outright; the others are looked up by their text. */
const LABELS = '[data-term], label, th, dt, legend, caption, [role="tab"]'
/** Documents keep their own look, and the glossary explains itself. */
const NOT_MARKED = '.review-sheet, .glossary'
const LONGEST_LABEL = 80

/** The entry that a label asks for: the one it names, or the one of its text. */
export function askedTerm(label: Element, idOf: TermLookup): string | undefined {
  const named = label instanceof HTMLElement ? label.dataset.term : undefined
  if (named !== undefined) return named
  const text = (label.getAttribute('aria-label') ?? label.textContent ?? '').trim()
  return text.length > LONGEST_LABEL ? undefined : idOf(text)
}

/** The labels of an element, nearest first: its own, those of a field, the heads of its row and its column. */
export function labelsWithin(element: Element): readonly Element[] {
  const own = element.closest(LABELS)
  const fields = 'labels' in element ? [...((element as HTMLInputElement).labels ?? [])] : []
  const cell = element.closest('td, th')
  const row = (cell?.parentElement ?? element.closest('tr'))?.querySelector('th')
  const at = cell instanceof HTMLTableCellElement ? cell.cellIndex : -1
  const head = cell?.closest('table')?.querySelector(`thead th:nth-child(${at + 1})`)
  const known = [own, ...fields, ...(own === null ? [element] : []), row, head]
  return known.filter((each): each is Element => each instanceof Element)
}

/** Marks the labels that have an entry, those that come later too; returns the function that stops it. */
export function markLabels(root: HTMLElement, idOf: TermLookup): () => void {
  const mark = (within: Element) => {
    const labels = [...within.querySelectorAll(LABELS)]
    if (within.matches(LABELS)) labels.push(within)
    for (const label of labels) {
      if (label.closest(NOT_MARKED) !== null) continue
      label.toggleAttribute('data-asks', askedTerm(label, idOf) !== undefined)
    }
  }
  const waiting = new Set<Element>()
  let timer: ReturnType<typeof setTimeout> | undefined
  const work = () => {
    timer = undefined
    for (const each of waiting) if (each.isConnected) mark(each)
    waiting.clear()
  }
  // Later and together: what is drawn in a frame must not wait for it.
  const observer = new MutationObserver((changes) => {
    for (const { addedNodes } of changes) {
      for (const node of addedNodes) if (node instanceof Element) waiting.add(node)
    }
    if (waiting.size > 0) timer ??= setTimeout(work, 150)
  })
  mark(root)
  observer.observe(root, { childList: true, subtree: true })
  return () => {
    observer.disconnect()
    clearTimeout(timer)
  }
}
