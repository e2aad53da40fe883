// One of many named things, found by typing part of its name: the combobox of the ARIA authoring practices.

import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react'
import { placeBeside } from './placement'

interface Option {
  readonly value: string
  readonly label: string
  /** A second, quiet line. */
  readonly note?: string
}

/** A longer name does not fit beside its label in the narrowest inspector. */
const MOST_BESIDE = 20

const found = (options: readonly Option[], typed: string) => {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  return options.filter(({ label, note }) => {
    const text = `${label} ${note ?? ''}`.toLowerCase()
    return words.every((word) => text.includes(word))
  })
}

export function Combobox({
  label,
  value,
  options,
  onChoose,
}: {
  readonly label: string
  readonly value: string
  readonly options: readonly Option[]
  readonly onChoose: (value: string) => void
}) {
  const id = useId()
  const input = useRef<HTMLInputElement>(null)
  const list = useRef<HTMLDivElement>(null)
  /** What is typed while the list is open; null while it is closed. */
  const [typed, setTyped] = useState<string | null>(null)
  const [active, setActive] = useState(0)
  const chosen = options.find((option) => option.value === value)
  const shown = typed === null || typed === '' ? options : found(options, typed)
  const isOpen = typed !== null

  useEffect(() => {
    const { current } = list
    if (current === null || input.current === null) return
    if (!isOpen) {
      if (current.matches(':popover-open')) current.hidePopover()
      return
    }
    if (!current.matches(':popover-open')) current.showPopover()
    current.style.minInlineSize = `${input.current.offsetWidth}px`
    placeBeside(current, input.current)
  })
  useEffect(() => {
    if (isOpen) list.current?.children[active]?.scrollIntoView({ block: 'nearest' })
  }, [active, isOpen])

  const open = () => {
    if (isOpen) return
    setTyped('')
    setActive(
      Math.max(
        0,
        options.findIndex((option) => option.value === value),
      ),
    )
  }
  const choose = (option: Option | undefined) => {
    setTyped(null)
    if (option !== undefined && option.value !== value) onChoose(option.value)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault()
      const step = event.key === 'ArrowDown' ? 1 : shown.length - 1
      if (isOpen) setActive((at) => (at + step) % Math.max(1, shown.length))
      else open()
    } else if (event.key === 'Enter' && isOpen) {
      event.preventDefault()
      choose(shown[active])
    } else if (event.key === 'Escape' && isOpen) {
      event.preventDefault()
      event.stopPropagation()
      setTyped(null)
    }
  }
  return (
    <div className="field combobox" data-long={(chosen?.label.length ?? 0) > MOST_BESIDE}>
      <label htmlFor={id}>{label}</label>
      <input
        ref={input}
        id={id}
        role="combobox"
        aria-expanded={isOpen}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={isOpen && shown[active] ? `${id}-${active}` : undefined}
        autoComplete="off"
        spellCheck={false}
        value={typed === null || typed === '' ? (chosen?.label ?? '') : typed}
        onClick={open}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={() => setTyped(null)}
        onChange={(event) => {
          setTyped(event.target.value)
          setActive(0)
        }}
        onKeyDown={onKeyDown}
      />
      <div
        ref={list}
        id={`${id}-list`}
        role="listbox"
        aria-label={label}
        popover="manual"
        className="combobox-list"
      >
        {isOpen &&
          shown.map((option, at) => (
            // biome-ignore lint/a11y/useFocusableInteractive: the focus stays in the input; aria-activedescendant names the option
            // biome-ignore lint/a11y/useKeyWithClickEvents: the keys are those of the input, which keeps the focus
            <div
              key={option.value}
              id={`${id}-${at}`}
              role="option"
              aria-selected={option.value === value}
              data-active={at === active}
              onPointerDown={(event) => event.preventDefault()}
              onPointerMove={() => setActive(at)}
              onClick={() => choose(option)}
            >
              {option.label}
              {option.note !== undefined && <span className="combobox-note">{option.note}</span>}
            </div>
          ))}
        {isOpen && shown.length === 0 && <div className="quiet">Nothing matches “{typed}”</div>}
      </div>
    </div>
  )
}
