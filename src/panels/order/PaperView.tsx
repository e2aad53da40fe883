// A paper as it will be printed.

import { headBody, sectionBody } from '../../report/document/body'
import { sheetStyle } from '../../report/document/sheetStyle'
import type { Printed } from '../../report/sheet'
import { MarkupView } from '../../ui/figures/MarkupView'

export function PaperView({ printed, name }: { readonly printed: Printed; readonly name: string }) {
  return (
    <section
      className="paper-preview"
      aria-label={name}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
      tabIndex={0}
    >
      <style>{`${sheetStyle(printed.head)}${printed.style ?? ''}`}</style>
      <article className="review-sheet">
        <MarkupView nodes={[headBody(printed.head), ...printed.sections.map(sectionBody)]} />
      </article>
    </section>
  )
}
