// Panes side by side or one below the other with a line between them that can be dragged or moved by arrow keys. Their sizes are
// kept in this browser. `Pane` is one of them: a heading, quiet tools, a body that scrolls independently.

import { Fragment, type ReactNode, useId } from 'react'
import { Group, Panel, Separator } from 'react-resizable-panels'
import { keepSizes, keptSizes } from './paneSizes'

interface PaneSpec {
  readonly id: string
  /** In a sentence, where the id is not the word for it. */
  readonly name?: string
  readonly view: ReactNode
  /** CSS lengths or percentages of the group, as `190px` or `40%`. */
  readonly size?: string
  readonly least: string
  readonly most?: string
  /** Keeps its length when the window changes; the others share what is left. */
  readonly fixed?: boolean
  /** Dragged below its least size it closes, and opens when dragged back. */
  readonly collapsible?: boolean
}

const nameOf = (pane: PaneSpec | undefined): string => pane?.name ?? pane?.id.replaceAll('-', ' ') ?? ''

export function Split({
  id,
  across = false,
  panes,
}: {
  /** Names the kept sizes. */
  readonly id: string
  /** True for panes side by side. */
  readonly across?: boolean
  readonly panes: readonly PaneSpec[]
}) {
  const ids = panes.map((pane) => pane.id)
  const kept = keptSizes(id, ids)
  return (
    <Group
      id={id}
      orientation={across ? 'horizontal' : 'vertical'}
      {...(kept === null ? {} : { defaultLayout: kept })}
      onLayoutChanged={(layout, { isUserInteraction }) => {
        if (isUserInteraction) keepSizes(id, layout)
      }}
    >
      {panes.map((pane, at) => (
        <Fragment key={pane.id}>
          {at > 0 && (
            <Separator
              className="pane-divider screen-only"
              aria-label={`Divider between ${nameOf(panes[at - 1])} and ${nameOf(pane)}`}
            />
          )}
          <Panel
            id={pane.id}
            minSize={pane.least}
            maxSize={pane.most ?? '100%'}
            defaultSize={pane.size}
            collapsible={pane.collapsible === true}
            groupResizeBehavior={pane.fixed === true ? 'preserve-pixel-size' : 'preserve-relative-size'}
          >
            {pane.view}
          </Panel>
        </Fragment>
      ))}
    </Group>
  )
}

export function Pane({
  name,
  title = name,
  tools,
  headless = false,
  children,
}: {
  /** The accessible name of the region. */
  readonly name: string
  /** The heading, where it says more than the name. */
  readonly title?: ReactNode
  readonly tools?: ReactNode
  /** True where the content has a head of its own. */
  readonly headless?: boolean
  readonly children: ReactNode
}) {
  const id = useId()
  return (
    <section className="pane" aria-label={name} data-pane={name}>
      {!headless && (
        <header className="pane-head">
          <h2 id={id}>{title}</h2>
          {tools !== undefined && <span className="pane-tools">{tools}</span>}
        </header>
      )}
      <div className="pane-body">{children}</div>
    </section>
  )
}
