// The pages of the guide in the order of the work. Their text is that of docs/guide, loaded when a page is opened.

export const GUIDE_PAGES = [
  ['first-ten-minutes', 'First ten minutes'],
  ['choose-a-converter', 'Choose a converter'],
  ['measure-a-mode', 'Measure a mode'],
  ['array-with-an-ssc-chip', 'An array with an SSC chip'],
  ['defend-it-in-a-review', 'Defend it in a review'],
  ['requirements', 'Requirements'],
  ['parts', 'Parts'],
  ['cross-section', 'Waveguide cross-section'],
  ['design', 'Design'],
  ['tolerance', 'Tolerance'],
  ['yield', 'Yield'],
  ['array', 'Array'],
  ['temperature', 'Temperature'],
  ['fields', 'Fields'],
  ['light', 'Reflections, spectrum, polarisation, power'],
  ['clearance', 'Clearance'],
  ['assembly', 'Assembly'],
  ['first-light', 'First light'],
  ['lifetime', 'Lifetime'],
  ['compare', 'Compare'],
  ['sizing', 'Sizing'],
  ['order', 'Order'],
  ['measurements', 'Measurements'],
  ['lots', 'Lots'],
  ['review', 'Review'],
  ['projects-and-links', 'Projects, files and links'],
  ['numbers', 'Numbers, axes and signs'],
  ['command-line', 'Command line'],
] as const

const TEXTS = import.meta.glob<string>('../../../docs/guide/*.md', { query: '?raw', import: 'default' })

/** The Markdown of a page; null for an unknown page. */
export async function guideText(page: string): Promise<string | null> {
  return (await TEXTS[`../../../docs/guide/${page}.md`]?.()) ?? null
}
