// The pages of the guide in the order of the work. Their text is that of docs/guide, loaded when a page is opened.

export const GUIDE_PAGES = [
  ['first-ten-minutes', 'First ten minutes'],
  ['requirements', 'Requirements'],
  ['parts', 'Parts'],
  ['design', 'Design'],
  ['compare', 'Compare'],
  ['sizing', 'Sizing'],
  ['measurements', 'Measurements'],
  ['review', 'Review'],
  ['projects-and-links', 'Projects, files and links'],
] as const

const TEXTS = import.meta.glob<string>('../../../docs/guide/*.md', { query: '?raw', import: 'default' })

/** The Markdown of a page; null where there is no such page. */
export async function guideText(page: string): Promise<string | null> {
  return (await TEXTS[`../../../docs/guide/${page}.md`]?.()) ?? null
}
