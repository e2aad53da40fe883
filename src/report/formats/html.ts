// The sheet as one HTML file that needs nothing else: style and figures are inside, and no script is.

import { FONT_FACE } from '../../figures/render/fontFace'
import { element, markupText } from '../../figures/render/markup'
import { sheetBody } from '../document/body'
import { sheetStyle } from '../document/sheetStyle'
import type { Printed } from '../sheet'

const OUTER_STYLE =
  'body { margin: 2rem auto; padding-inline: 1.5rem; max-inline-size: 60rem; background: #ffffff; } @media print { body { margin: 0; padding: 0; max-inline-size: none; } }'

/** Nothing is loaded and nothing runs, whatever a name contains. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"

export function sheetHtml(sheet: Printed): string {
  const page = element(
    'html',
    { lang: 'en' },
    element(
      'head',
      {},
      element('meta', { charset: 'utf-8' }),
      element('meta', { 'http-equiv': 'Content-Security-Policy', content: POLICY }),
      element('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
      element('title', {}, `${sheet.head.title}, ${sheet.head.subject}`),
      element('style', {}, `${FONT_FACE}\n${sheetStyle(sheet.head)}${sheet.style ?? ''}${OUTER_STYLE}`),
    ),
    element('body', {}, sheetBody(sheet)),
  )
  return `<!doctype html>\n${markupText(page)}\n`
}
