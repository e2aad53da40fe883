// The parts as a list box with one tab stop: arrows show a part, Space picks it, Shift and Ctrl pick several, Delete deletes.

import { type KeyboardEvent, type MouseEvent, useEffect, useId, useRef } from 'react'
import { KIND_LABELS, type ListedPart, PART_KINDS, refKey } from '../../../model/parts/partKinds'
import { candidatesUsing } from '../../../model/project/references'
import type { Project } from '../../../model/schema/project'
import { unbroken } from '../../../numerics/numberText'
import { dimensionsText, partDimensions } from '../../../report/partDimensions'
import { choosePart, pickParts, usePartsView } from '../../../store/partsView'
import { deletePicked } from './pickedActions'

function usedText(project: Project, { list, id }: ListedPart): string {
  const users = candidatesUsing(project, list, id)
  if (users.length === 0) return 'not used'
  return users.length > 2 ? `used in ${users.length} designs` : `used in ${users.join(' · ')}`
}

/** The keys from one part to another, both included, in the order of the list. */
function rangeOf(keys: readonly string[], from: string, to: string): readonly string[] {
  const [a, b] = [keys.indexOf(from), keys.indexOf(to)]
  return keys.slice(Math.max(0, Math.min(a, b)), Math.max(a, b) + 1)
}

export function PartRows({
  project,
  parts,
  chosen,
}: {
  readonly project: Project
  readonly parts: readonly ListedPart[]
  readonly chosen: ListedPart | undefined
}) {
  const id = useId()
  const list = useRef<HTMLDivElement>(null)
  const picked = usePartsView((state) => state.picked)
  const keys = parts.map(refKey)
  const shownKey = chosen === undefined ? '' : refKey(chosen)
  const idOf = (key: string) => `${id}-${key}`
  useEffect(() => {
    const rows = [...(list.current?.querySelectorAll<HTMLElement>('[role="option"]') ?? [])]
    rows.find((row) => row.dataset.key === shownKey)?.scrollIntoView({ block: 'nearest' })
  }, [shownKey])
  const toggle = (key: string) =>
    pickParts(picked.includes(key) ? picked.filter((each) => each !== key) : [...picked, key])
  const extend = (key: string) =>
    pickParts(
      [...new Set([...picked, ...rangeOf(keys, shownKey, key)])].filter((each) => keys.includes(each)),
    )

  const onKeyDown = (event: KeyboardEvent) => {
    const at = keys.indexOf(shownKey)
    const steps: Readonly<Record<string, number>> = {
      ArrowDown: Math.min(keys.length - 1, at + 1),
      ArrowUp: Math.max(0, at - 1),
      Home: 0,
      End: keys.length - 1,
    }
    const next = keys[steps[event.key] ?? -1]
    if (next !== undefined) {
      event.preventDefault()
      if (event.shiftKey) extend(next)
      choosePart(next)
    } else if (event.key === ' ') {
      event.preventDefault()
      toggle(shownKey)
    } else if (event.key === 'a' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault()
      pickParts(keys)
    } else if (event.key === 'Escape' && picked.length > 0) pickParts([])
    else if (event.key === 'Delete') deletePicked(project, picked.length > 0 ? picked : [shownKey])
  }
  const onClick = (event: MouseEvent, key: string) => {
    const onBox = event.target instanceof Element && event.target.closest('.part-pick') !== null
    if (event.shiftKey) extend(key)
    else if (onBox || event.ctrlKey || event.metaKey) toggle(key)
    if (!onBox) choosePart(key)
  }
  return (
    <div
      ref={list}
      role="listbox"
      aria-label="Parts"
      aria-multiselectable="true"
      aria-activedescendant={keys.includes(shownKey) ? idOf(shownKey) : undefined}
      tabIndex={0}
      className="part-rows"
      data-picking={picked.length > 0}
      onKeyDown={onKeyDown}
    >
      {PART_KINDS.map((kind) => {
        const own = parts.filter((each) => each.kind === kind)
        if (own.length === 0) return null
        return (
          // biome-ignore lint/a11y/useSemanticElements: a fieldset may not hold options
          <div key={kind} role="group" aria-label={KIND_LABELS[kind].many}>
            <div className="part-kind" aria-hidden="true">
              {KIND_LABELS[kind].many} <span className="quiet">{own.length}</span>
            </div>
            {own.map((each) => {
              const key = refKey(each)
              return (
                // biome-ignore lint/a11y/useKeyWithClickEvents: the list has the focus and the keys
                // biome-ignore lint/a11y/useFocusableInteractive: announced by aria-activedescendant
                <div
                  key={key}
                  id={idOf(key)}
                  data-key={key}
                  role="option"
                  aria-selected={picked.includes(key)}
                  aria-current={key === shownKey ? 'true' : undefined}
                  className="part-row"
                  onClick={(event) => onClick(event, key)}
                >
                  <span className="part-pick" aria-hidden="true" />
                  <span className="part-row-name">{each.part.name}</span>
                  <span className="part-row-numbers">
                    {unbroken(dimensionsText(partDimensions(each.list, each.part))) || each.part.remark}
                  </span>
                  <span className="part-row-used">{usedText(project, each)}</span>
                </div>
              )
            })}
          </div>
        )
      })}
    </div>
  )
}
