// How the first page looks: it has one page of either paper whatever the project holds.

/** The first page: texts are shortened to the lines that it has for them, so that its height is known whatever is entered. */
export const SUMMARY_STYLE = `
.review-sheet [data-section="summary"] > h2 { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); margin: 0; }
.review-sheet [data-section="summary"] table { table-layout: fixed; margin-block: 0.4rem; }
.review-sheet [data-section="summary"] :is(caption, h3) { font-weight: 650; font-size: inherit; border-block-end: 1px solid #1c2126; margin: 0; padding-block-end: 0.1rem; }
.review-sheet [data-section="summary"] .decision h3 { font-size: 1.25rem; border: 0; padding: 0; }
.review-sheet [data-section="summary"] :is(th, td) { overflow: hidden; overflow-wrap: anywhere; padding-block: 0.08rem; vertical-align: baseline; }
.review-sheet [data-section="summary"] figure { margin: 0.2rem 0; }
.review-sheet [data-section="summary"] figcaption { display: none; }
.review-sheet [data-section="summary"] .stack { margin-block-start: 0.4rem; }
.review-sheet [data-section="summary"] .beside { grid-template-columns: 1.4fr 1fr; }
.review-sheet [data-section="summary"] li { list-style: none; display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 4; overflow: hidden; overflow-wrap: anywhere; white-space: normal; margin-block: 0.15rem; }
.review-sheet [data-section="summary"] ul { margin: 0.1rem 0; padding: 0; }
.review-sheet [data-section="summary"] .decision p { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; overflow: hidden; overflow-wrap: anywhere; white-space: normal; }
.review-sheet [data-section="summary"] > p { margin: 0.3rem 0; color: #565d64; }
[data-table="summary-requirements"] th:nth-child(1) { inline-size: 12%; }
[data-table="summary-requirements"] th:nth-child(2) { inline-size: 33%; }
[data-table="summary-requirements"] th:nth-child(3) { inline-size: 8.5%; }
[data-table="summary-requirements"] th:nth-child(4) { inline-size: 8%; }
[data-table="summary-loss"] th:nth-child(1) { inline-size: 41%; }
[data-table="summary-loss"] th:nth-child(2) { inline-size: 11.5%; }
[data-table="summary-loss"] th:nth-child(3) { inline-size: 8%; }
[data-table="summary-windows"] th:nth-child(1) { inline-size: 24%; }
[data-table="summary-alternatives"] th:nth-child(1) { inline-size: 26%; }
[data-table="summary-alternatives"] th:nth-child(2) { inline-size: 12%; }
[data-table="summary-alternatives"] th:nth-child(3) { inline-size: 10%; }
@media print {
  .review-sheet [data-section="summary"] { break-after: page; font-size: 8.2pt; }
  .review-sheet [data-section="summary"] :is(th, td) { line-height: 1.2; }
  .review-sheet [data-section="summary"] .decision { padding: 4pt 7pt; margin-block: 3pt; }
  .review-sheet [data-section="summary"] figure > svg.chart { max-inline-size: 100%; max-block-size: 112pt; }
  .review-sheet [data-section="summary"] .path-strip { max-block-size: 62pt; }
  .review-sheet [data-section="summary"] .signatures { margin-block-start: 24pt; }
}
`
