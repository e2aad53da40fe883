// A fault in one screen must not take the others, nor the way to save, with it.

import { Component, type ReactNode } from 'react'
import { commandOf, keyText } from '../../store/commands'
import { useWorkbench } from '../../store/workbench'

const keysOf = (id: Parameters<typeof commandOf>[0]) => commandOf(id).keys.map(keyText).join(', ')

interface Props {
  /** A change of this tries the screen again, as after an undo. */
  readonly resetKey: unknown
  readonly part: string
  readonly children: ReactNode
}

interface State {
  readonly message: string | null
  readonly failedKey: unknown
}

/** The one class of the screens: React offers this only to classes. */
class Caught extends Component<Props, State> {
  override state: State = { message: null, failedKey: null }

  static getDerivedStateFromError(error: unknown): Partial<State> {
    return { message: error instanceof Error ? error.message : String(error) }
  }

  static getDerivedStateFromProps(props: Props, state: State): Partial<State> | null {
    if (props.resetKey === state.failedKey) return null
    return { message: null, failedKey: props.resetKey }
  }

  override render(): ReactNode {
    const { part, children } = this.props
    if (this.state.message === null) return children
    return (
      <div className="page" role="alert">
        <h1>{part} has stopped working</h1>
        <p>{this.state.message}</p>
        <p>
          Your project is intact. Undo the last change ({keysOf('undo')}), save the project ({keysOf('save')}
          ), or open another page. This is a software fault.
        </p>
      </div>
    )
  }
}

/** Shows what is in it until that fails; a change of the project tries again. An edit alone does not render the content anew. */
export function ErrorBoundary({
  part = 'This page',
  children,
}: {
  /** What has failed, as the first words of a sentence. */
  readonly part?: string
  readonly children: ReactNode
}) {
  const project = useWorkbench((state) => state.project)
  return (
    <Caught part={part} resetKey={project}>
      {children}
    </Caught>
  )
}
