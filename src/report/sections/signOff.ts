// Who signs, as roles: the sheet names nobody.

import { REVIEW_DEFAULTS } from '../../model/words/review'
import { table } from '../document/blocks'
import type { SectionSpec } from '../section'

export const signOffSection: SectionSpec = {
  id: 'sign-off',
  title: 'Sign-off',
  build: ({ project }) => [
    table(
      'Reviewed by',
      ['Role', 'Name', 'Signature', 'Date'],
      (project.review?.roles ?? REVIEW_DEFAULTS.roles).map((role) => [role, '', '', '']),
    ),
  ],
}
