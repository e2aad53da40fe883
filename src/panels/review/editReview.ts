// Edits of what the engineer decides about the sheet.

import type { Review } from '../../model/schema/review'
import { editProject } from '../../store/workbench'

export function editReview(change: (review: Review) => void): void {
  editProject((draft) => {
    draft.review ??= {}
    change(draft.review)
  })
}

/** Lines of a text without empty ones. */
export const linesOf = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')

/** Ticks a section on or off. */
export function tickSection(id: string, shown: boolean): void {
  editReview((review) => {
    const others = (review.left ?? []).filter((each) => each !== id)
    review.left = shown ? others : [...others, id]
  })
}

export function remarkOn(id: string, remark: string): void {
  editReview((review) => {
    const { [id]: _, ...others } = review.remarks ?? {}
    review.remarks = remark === '' ? others : { ...others, [id]: remark }
  })
}
