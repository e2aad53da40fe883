// A fault in one screen must not take the others, nor the way to save, with it.

import { Component, type ReactNode } from 'react'

interface Props {
  /** A change of this tries the screen again, after an undo or a move to another page. */
  readonly resetKey: unknown
  readonly children: ReactNode
}

interface State {
  readonly message: string | null
  readonly failedKey: unknown
}

/** The one class of the screens: React offers this only to classes. */
export class ErrorBoundary extends Component<Props, State> {
  override state: State = { message: null, failedKey: null }

  static getDerivedStateFromError(error: unknown): Partial<State> {
    return { message: error instanceof Error ? error.message : String(error) }
  }

  static getDerivedStateFromProps(props: Props, state: State): Partial<State> | null {
    if (props.resetKey === state.failedKey) return null
    return { message: null, failedKey: props.resetKey }
  }

  override render(): ReactNode {
    if (this.state.message === null) return this.props.children
    return (
      <div className="page" role="alert">
        <h1>This page has stopped working</h1>
        <p>{this.state.message}</p>
        <p>
          Your project is intact. Undo the last change, save the project, or open another page. This is a
          software fault.
        </p>
      </div>
    )
  }
}
