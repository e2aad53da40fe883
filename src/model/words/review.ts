// What the engineer decides about the review sheet: the choice, what the sheet holds, and remarks.

export const PAPERS = ['A4', 'Letter'] as const
export type Paper = (typeof PAPERS)[number]

export const REVIEW_DEFAULTS = {
  paper: 'A4',
  roles: ['Packaging engineer', 'Chip designer', 'Process engineer', 'Purchasing', 'Laser safety officer'],
} as const satisfies { readonly paper: Paper; readonly roles: readonly string[] }
