// Which sections the review document has, and a comment on each.

import { useState } from 'react'
import type { Review } from '../../model/schema/review'
import { SECTIONS } from '../../report/sections'
import { cautionsSection } from '../../report/sections/cautions'
import { TextArea } from '../../ui/fields/TextArea'
import { remarkOn, tickSection } from './editReview'

const LONGEST_REMARK = 20_000

export function SectionTicks({ review }: { readonly review: Review | undefined }) {
  const left = new Set(review?.left ?? [])
  const [open, setOpen] = useState('')
  return (
    <fieldset>
      <legend>Sections</legend>
      {SECTIONS.map(({ id, title }) => {
        const remark = review?.remarks?.[id] ?? ''
        return (
          <div key={id}>
            <div className="section-tick">
              <label>
                <input
                  type="checkbox"
                  checked={id === cautionsSection.id || !left.has(id)}
                  disabled={id === cautionsSection.id}
                  onChange={(event) => tickSection(id, event.target.checked)}
                />
                {title}
              </label>
              <button
                type="button"
                aria-expanded={open === id}
                aria-label={`Comment on ${title}`}
                onClick={() => setOpen(open === id ? '' : id)}
              >
                {remark === '' ? 'Comment' : 'Comment ✓'}
              </button>
            </div>
            {open === id && (
              <TextArea
                label={`Comment on ${title}`}
                text={remark}
                longest={LONGEST_REMARK}
                onCommit={(text) => remarkOn(id, text)}
              />
            )}
          </div>
        )
      })}
    </fieldset>
  )
}
