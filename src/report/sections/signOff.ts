// Who signs, as roles: the sheet contains no names. Omitted where the first page has a line for each of them.

import { REVIEW_DEFAULTS } from '../../model/words/review'
import { table, text } from '../document/blocks'
import { provisionalText } from '../provisional'
import type { SectionSpec } from '../section'
import { signsOnSummary } from './summary'

export const signOffSection: SectionSpec = {
  id: 'sign-off',
  title: 'Sign-off',
  build: (context) => {
    const roles = context.project.review?.roles ?? REVIEW_DEFAULTS.roles
    if (signsOnSummary(context, roles.length)) return []
    const provisional = provisionalText(context.candidates)
    if (provisional !== '') return [text(provisional)]
    return [
      table(
        'Reviewed by',
        ['Role', 'Name', 'Signature', 'Date'],
        roles.map((role) => [role, '', '', '']),
      ),
    ]
  },
}
