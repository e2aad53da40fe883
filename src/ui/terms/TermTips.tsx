// Explains every label that the glossary has an entry for, on all screens at once: under a resting pointer, and with F1 for
// what has the focus. One tip for the whole app; labels carry nothing and need no tab stop of their own. Labels that can be asked are
// marked (`data-asks`), so that a style sheet can underline them.

import { type RefObject, useEffect, useRef, useState } from 'react'
import type { Term } from '../../model/words/glossary'
import { placeBeside } from '../controls/placement'
import { askedTerm, labelsWithin, markLabels, type TermLookup } from './labels'
import './terms.css'

const REST_MS = 350
/** Time for the pointer to reach the tip, which may be read with it. */
const LEAVE_MS = 200

interface Shown {
  readonly term: Term
  readonly facts: readonly (readonly [string, string])[]
  readonly anchor: Element
}

export function TermTips({
  onGlossary,
}: {
  /** F1 where nothing has an entry. */ readonly onGlossary: () => void
}) {
  const tip = useRef<HTMLDivElement>(null)
  const [shown, setShown] = useState<Shown | null>(null)
  useTermEvents(tip, setShown, onGlossary)
  useEffect(() => {
    const { current } = tip
    if (current === null) return
    if (shown === null) {
      if (current.matches(':popover-open')) current.hidePopover()
      return
    }
    // Shown anew, so that it lies over a dialog that has opened since.
    if (current.matches(':popover-open')) current.hidePopover()
    current.showPopover()
    placeBeside(current, shown.anchor)
  }, [shown])
  return (
    <div ref={tip} role="tooltip" popover="manual" className="tooltip term-tip">
      <div role="status">
        {shown !== null && (
          <>
            <strong>{shown.term.name}</strong>
            <span className="term-definition">{shown.term.definition}</span>
            {shown.facts.map(([name, text]) => (
              <span key={name} className="term-fact">
                <span className="quiet">{name}</span> {text}
              </span>
            ))}
          </>
        )}
      </div>
    </div>
  )
}

function useTermEvents(
  tip: RefObject<HTMLDivElement | null>,
  setShown: (shown: Shown | null) => void,
  onGlossary: () => void,
): void {
  useEffect(() => {
    let glossary: typeof import('../../model/words/glossary') | null = null
    const loading = import('../../model/words/glossary').then((loaded) => {
      glossary = loaded
      const idOf: TermLookup = (label) => loaded.termIdOfLabel(label)
      marks = markLabels(document.body, idOf)
    })
    let marks = () => {}
    let timer: ReturnType<typeof setTimeout> | undefined
    let anchor: Element | null = null
    /** What was pressed needs no words until the pointer has left it: they would lie over what the press has opened. */
    let pressed: Element | null = null
    const stop = new AbortController()
    const { signal } = stop

    const show = (element: Element, id: string | undefined) => {
      clearTimeout(timer)
      const term = id === undefined ? undefined : glossary?.termOf(id)
      if (glossary === null || term === undefined) return
      anchor = element
      setShown({ term, facts: glossary.termFacts(term), anchor: element })
    }
    const hide = () => {
      clearTimeout(timer)
      if (anchor === null) return
      anchor = null
      setShown(null)
    }
    const idOf: TermLookup = (label) => glossary?.termIdOfLabel(label)
    const onPointerOver = ({ target, pointerType, buttons }: PointerEvent) => {
      if (!(target instanceof Element) || pointerType === 'touch' || buttons !== 0) return
      clearTimeout(timer)
      if (tip.current?.contains(target)) return
      const [label] = labelsWithin(target)
      if (label !== undefined && (label === anchor || label === pressed)) return
      pressed = null
      const id = label === undefined ? undefined : askedTerm(label, idOf)
      if (label !== undefined && id !== undefined) timer = setTimeout(() => show(label, id), REST_MS)
      else if (anchor !== null) timer = setTimeout(hide, LEAVE_MS)
    }
    const onPointerDown = ({ target }: PointerEvent) => {
      hide()
      pressed = target instanceof Element ? (labelsWithin(target)[0] ?? null) : null
    }
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === 'Escape') hide()
      if (event.key !== 'F1') return
      event.preventDefault()
      void loading.then(() => {
        const focused = document.activeElement ?? document.body
        const asked = labelsWithin(focused).find((label) => askedTerm(label, idOf) !== undefined)
        if (asked === undefined) onGlossary()
        else show(focused === document.body ? asked : focused, askedTerm(asked, idOf)) // next to it, not over it
      })
    }
    document.addEventListener('pointerover', onPointerOver, { signal })
    document.addEventListener('pointerdown', onPointerDown, { signal })
    document.addEventListener('focusout', hide, { signal })
    document.addEventListener('keydown', onKeyDown, { signal, capture: true })
    document.addEventListener('scroll', hide, { signal, capture: true, passive: true })
    return () => {
      stop.abort()
      clearTimeout(timer)
      marks()
    }
  }, [tip, setShown, onGlossary])
}
