// A fault in one screen must not take the others, nor the way to save, with it.

import { Component, type ReactNode } from 'react'
import { commandOf, keyText } from '../../store/commands'
import { refuse } from '../../store/refusals'
import { useWorkbench } from '../../store/workbench'

const WAYS_ON = ['undo', 'save'].map(commandOf)

/** What has failed, that nothing is lost, and the two commands that help: a page of its own, or a row in place of a part of the frame. */
function Failed({
  part,
  message,
  asPage,
}: {
  readonly part: string
  readonly message: string
  readonly asPage: boolean
}) {
  const Title = asPage ? 'h1' : 'strong'
  return (
    <div className={asPage ? 'page failed-page' : 'failed-row'} role="alert">
      <Title>{part} has stopped working</Title>
      <p>
        Your project is intact.{' '}
        {asPage
          ? 'Undo the last change, save the project, or open another page.'
          : 'Undo the last change or save the project.'}
      </p>
      <div className="failed-actions">
        {WAYS_ON.map(({ id, label, keys, run }) => (
          <button
            key={id}
            type="button"
            title={`${label} (${keys.map(keyText).join(', ')})`}
            onClick={() => void run().then(refuse)}
          >
            {label}
          </button>
        ))}
      </div>
      <p className="quiet">Software fault: {message}</p>
    </div>
  )
}

interface Props {
  /** A change of this tries the screen again, as after an undo. */
  readonly resetKey: unknown
  readonly part: string | undefined
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
    const { message } = this.state
    if (message === null) return children
    return <Failed part={part ?? 'This page'} message={message} asPage={part === undefined} />
  }
}

/** Shows what is in it until that fails; a change of the project tries again. An edit alone does not render the content anew. */
export function ErrorBoundary({
  part,
  children,
}: {
  /** The part of the frame that it holds, as the first words of a sentence; without one it holds a page. */
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
