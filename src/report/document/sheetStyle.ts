// How the sheet looks, on the page, on paper and in its own file. Paper is white in either theme.

import type { Paper } from '../../model/words/review'
import type { SheetHead } from '../sheet'
import { shortened } from '../summary/shorten'
import { SUMMARY_STYLE } from './summaryStyle'

const PAGE_SIZES: Readonly<Record<Paper, string>> = { A4: 'A4 portrait', Letter: 'letter portrait' }

const BODY = `
.review-sheet { color-scheme: light; --ink: #1c2126; --paper: #ffffff; --quiet: #565d64; --rule: #c9c5b8; --accent: #0b5a8a; box-sizing: border-box; max-inline-size: 60rem; color: #1c2126; background: #ffffff; font-family: "Source Sans 3 Variable", "Source Sans 3", system-ui, sans-serif; font-size: 15px; line-height: 1.4; font-variant-numeric: tabular-nums lining-nums; }
.review-sheet h1 { font-size: 1.6rem; font-weight: 600; margin: 0; }
.review-sheet .title { display: flex; justify-content: space-between; align-items: baseline; gap: 1.5rem; }
.review-sheet .title h1 { overflow-wrap: anywhere; }
.review-sheet .title p { flex: none; }
.review-sheet h2 { font-size: 1.15rem; margin: 1.75rem 0 0.5rem; padding-block-start: 0.35rem; border-block-start: 2px solid #1c2126; }
.review-sheet h3 { font-size: 1rem; margin: 1rem 0 0.25rem; }
.review-sheet p, .review-sheet li, .review-sheet td, .review-sheet th, .review-sheet dd { white-space: pre-wrap; overflow-wrap: break-word; }
.review-sheet .quiet { color: #565d64; margin-block: 0 0.5rem; }
.review-sheet .remark { border-inline-start: 3px solid #1c2126; padding-inline-start: 0.75rem; }
.review-sheet dl { display: flex; flex-wrap: wrap; gap: 0.15rem 1.5rem; margin: 0.5rem 0; }
.review-sheet dl div { display: flex; gap: 0.4rem; }
.review-sheet dt { color: #565d64; }
.review-sheet dd { margin: 0; }
.review-sheet table { border-collapse: collapse; inline-size: 100%; margin-block: 0.75rem 1.25rem; }
.review-sheet table.wide { font-size: 0.82rem; }
.review-sheet caption { text-align: start; font-weight: 600; padding-block-end: 0.25rem; }
.review-sheet th, .review-sheet td { padding: 0.2rem 0.75rem 0.2rem 0; border-block-end: 1px solid #c9c5b8; vertical-align: baseline; text-align: start; font-weight: 400; }
.review-sheet th:last-child, .review-sheet td:last-child { padding-inline-end: 0; }
.review-sheet thead th { color: #565d64; }
.review-sheet .number { text-align: end; }
.review-sheet :is(.number data, .held) { white-space: nowrap; }
.review-sheet .total > * { font-weight: 600; }
.review-sheet [data-section="sign-off"] tbody tr { block-size: 2.6rem; }
.review-sheet figure { margin: 0.75rem 0 1.25rem; }
.review-sheet figure > svg { display: block; inline-size: 100%; max-inline-size: 60rem; }
.review-sheet figure > svg.chart { max-inline-size: 44rem; }
.review-sheet figcaption { color: #565d64; }
.review-sheet .strong > * { font-weight: 650; background: #f3efe6; }
.review-sheet .beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(20rem, 100%), 1fr)); gap: 0 1.5rem; align-items: start; }
.review-sheet .beside > *, .review-sheet .stack { min-inline-size: 0; }
.review-sheet .columns { columns: 2 18rem; column-gap: 1.5rem; }
.review-sheet .columns > :first-child { margin-block-start: 0; }
.review-sheet .decision { border: 1.5px solid #1c2126; padding: 0.5rem 0.75rem; margin-block: 0.5rem; }
.review-sheet .decision h3 { font-size: 1.2rem; margin: 0; }
.review-sheet .decision p { margin: 0.1rem 0 0; }
.review-sheet .signatures { display: flex; gap: 1.2rem; margin-block-start: 2.2rem; }
.review-sheet .signatures p { flex: 1; min-inline-size: 0; border-block-start: 1px solid #1c2126; margin: 0; color: #565d64; white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
${SUMMARY_STYLE}`

const PRINT = `
@media print {
  .review-sheet { font-size: 8.5pt; line-height: 1.23; max-inline-size: none; padding: 0; }
  .review-sheet h1 { font-size: 16pt; }
  .review-sheet h2 { font-size: 11pt; margin: 0.65rem 0 0.2rem; padding-block-start: 0.15rem; border-block-start-width: 1.5px; }
  .review-sheet h3 { font-size: 9pt; margin: 0.35rem 0 0.1rem; }
  .review-sheet table { margin-block: 0.2rem 0.4rem; }
  .review-sheet table.wide { font-size: 7.2pt; }
  .review-sheet [data-table="comparison"] { table-layout: fixed; }
  .review-sheet [data-table="comparison"] data { white-space: normal; }
  .review-sheet [data-table="comparison"] th:first-child { inline-size: 27%; }
  .review-sheet th, .review-sheet td { padding: 0.05rem 0.6rem 0.05rem 0; border-block-end-width: 0.5px; }
  .review-sheet figure { margin: 0.2rem 0 0.4rem; }
  .review-sheet figure > svg.chart { max-inline-size: 28rem; max-block-size: 122pt; }
  .review-sheet .beside figure > svg.map { max-block-size: 125pt; }
  .review-sheet ul { margin: 0.15rem 0 0.3rem; padding-inline-start: 1.1rem; }
  .review-sheet p { margin: 0.2rem 0; }
  .review-sheet header dl { font-size: 7pt; margin: 0.1rem 0; gap: 0 0.8rem; }
  .review-sheet header p { margin: 0.1rem 0; }
  .review-sheet .beside { grid-template-columns: 1fr 1fr; gap: 0 14pt; break-inside: avoid; }
  .review-sheet .columns { columns: 2; column-gap: 14pt; }
  .review-sheet .columns :is(table, ul) { font-size: 7.4pt; }
  .review-sheet [data-section="other-budgets"] .columns { columns: 3; }
  .review-sheet [data-table="inputs"] :is(td:nth-child(3), td:nth-child(4)) { white-space: nowrap; }
  .review-sheet .slight { display: none; }
  .review-sheet tr, .review-sheet li, .review-sheet figure, .review-sheet .remark, .review-sheet header { break-inside: avoid; }
  .review-sheet h2, .review-sheet h3, .review-sheet caption { break-after: avoid; }
  .review-sheet h2 + *, .review-sheet h3 + * { break-before: avoid; }
  .review-sheet thead { display: table-header-group; break-after: avoid; }
  .review-sheet tbody tr:nth-child(-n+2), .review-sheet tbody tr:nth-last-child(-n+2), .review-sheet tr.total { break-before: avoid; }
  .review-sheet [data-section="sign-off"] { break-inside: avoid; }
  .review-sheet p { orphans: 3; widows: 3; }
  .review-sheet svg text { stroke: none; }
  .review-sheet * { print-color-adjust: exact; }
}
`

/** A text as the content of a style rule. */
function quoted(text: string): string {
  return `"${text.replace(/[\p{Cc}"\\<>&]/gu, (letter) => `\\${letter.codePointAt(0)?.toString(16)} `)}"`
}

/** Space for the name in the foot, px at its size, next to revision, date and checksum. */
const FOOT = { titlePx: 240, revisionPx: 110, sizePx: 10.7 } as const
const SHORT_CHECKSUM = 8

/** The rules for one sheet: its paper, and title, checksum and page number on every page. */
export function sheetStyle({ title, revision, date, checksum, paper }: SheetHead): string {
  const short = (words: string, roomPx: number) => shortened(words, roomPx, FOOT.sizePx)
  const running = `${short(title, FOOT.titlePx)} · ${short(revision, FOOT.revisionPx)} · ${date} · project ${checksum.slice(0, SHORT_CHECKSUM)}`
  const margin = 'font: 8pt "Source Sans 3 Variable", system-ui, sans-serif; color: #565d64;'
  return `@page {
  size: ${PAGE_SIZES[paper]};
  margin: 12mm 15mm 14mm;
  @bottom-left { content: ${quoted(running)}; ${margin} }
  @bottom-right { content: "page " counter(page) " of " counter(pages); ${margin} }
}
${BODY}${PRINT}`
}
