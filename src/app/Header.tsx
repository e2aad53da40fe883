// The first row of the frame: project, pages, undo and redo, what became of the last change, help, theme.

import { HelpMenu } from '../panels/help/HelpMenu'
import { type Command, commandOf, keyText } from '../store/commands'
import { startTour, useHelp } from '../store/help'
import { useTheme } from '../store/theme'
import { showPage, useView } from '../store/view'
import { UNDO_STEPS, useHistory } from '../store/workbench'
import { ProjectMenu } from './ProjectMenu'
import { PAGE_LIST } from './pages'
import { SaveLine } from './SaveLine'

const THEME_SIGNS = { system: '◐', light: '○', dark: '●' } as const

export function Header({ run }: { readonly run: (command: Command) => void }) {
  const page = useView((state) => state.page)
  const theme = useTheme()
  const tourIsNew = useHelp((state) => state.tourIsNew && state.tourStep === null)
  const canUndo = useHistory((state) => state.pastStates.length > 0)
  const canRedo = useHistory((state) => state.futureStates.length > 0)
  const signs = [
    { command: commandOf('undo'), sign: '↶', enabled: canUndo, depth: `, up to ${UNDO_STEPS} steps` },
    { command: commandOf('redo'), sign: '↷', enabled: canRedo, depth: '' },
  ]
  return (
    <header className="app-header screen-only">
      <span className="app-product">Modeseam</span>
      <ProjectMenu run={run} />
      <nav className="app-pages" aria-label="Pages">
        {PAGE_LIST.map((each) => (
          <button
            key={each.page}
            type="button"
            data-label={each.label}
            aria-current={each.page === page ? 'page' : undefined}
            onClick={() => showPage(each.page)}
          >
            {each.label}
          </button>
        ))}
      </nav>
      <div className="app-commands">
        <SaveLine />
        {signs.map(({ command, sign, enabled, depth }) => (
          <button
            key={command.id}
            type="button"
            aria-label={command.label}
            title={`${command.label} (${command.keys.map(keyText).join(', ')})${depth}`}
            disabled={!enabled}
            onClick={() => run(command)}
          >
            {sign}
          </button>
        ))}
        {tourIsNew && (
          <button type="button" className="app-tour" onClick={startTour}>
            Take the tour
          </button>
        )}
        <HelpMenu />
        <button
          type="button"
          aria-label={`Theme: ${theme}`}
          title={`Theme: ${theme}`}
          onClick={() => run(commandOf('theme'))}
        >
          {THEME_SIGNS[theme]}
        </button>
      </div>
    </header>
  )
}
