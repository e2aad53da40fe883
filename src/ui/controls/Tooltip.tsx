// Words that explain a label: shown when the pointer rests on it or the focus is on it, gone with Escape.
// `Tooltip` belongs to a control that is there anyway; `Term` makes a label that can be asked.

import {
  cloneElement,
  type HTMLAttributes,
  type ReactElement,
  type ReactNode,
  useEffect,
  useId,
  useRef,
} from 'react'
import { placeBeside } from './placement'

const REST_MS = 350

type Anchored = HTMLAttributes<HTMLElement>

export function Tooltip({
  text,
  children,
}: {
  readonly text: ReactNode
  /** One element that takes the handlers: a button, a link, a chip with `tabIndex`. */
  readonly children: ReactElement<Anchored>
}) {
  const id = useId()
  const tip = useRef<HTMLSpanElement>(null)
  const resting = useRef<ReturnType<typeof setTimeout>>(undefined)
  const show = (anchor: Element) => {
    const { current } = tip
    if (current === null || current.matches(':popover-open')) return
    current.showPopover()
    placeBeside(current, anchor)
  }
  const hide = () => {
    clearTimeout(resting.current)
    if (tip.current?.matches(':popover-open')) tip.current.hidePopover()
  }
  useEffect(() => () => clearTimeout(resting.current), [])
  const { props } = children
  return (
    <>
      {cloneElement(children, {
        'aria-describedby': id,
        onPointerEnter: (event) => {
          const { currentTarget } = event
          resting.current = setTimeout(() => show(currentTarget), REST_MS)
          props.onPointerEnter?.(event)
        },
        onPointerLeave: (event) => {
          hide()
          props.onPointerLeave?.(event)
        },
        onFocus: (event) => {
          if (event.currentTarget.matches(':focus-visible')) show(event.currentTarget)
          props.onFocus?.(event)
        },
        onBlur: (event) => {
          hide()
          props.onBlur?.(event)
        },
        onKeyDown: (event) => {
          if (event.key === 'Escape') hide()
          props.onKeyDown?.(event)
        },
        onClick: (event) => {
          hide()
          props.onClick?.(event)
        },
      })}
      <span ref={tip} id={id} role="tooltip" popover="manual" className="tooltip">
        {text}
      </span>
    </>
  )
}
