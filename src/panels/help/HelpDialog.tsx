// Guide, glossary and shortcuts in one dialog, which fits the window and scrolls for itself.

import { closeHelp, type HelpView, useHelp } from '../../store/help'
import { Dialog } from '../../ui/controls/Dialog'
import { Glossary } from './Glossary'
import { Guide } from './Guide'
import { Shortcuts } from './Shortcuts'
import './help.css'

const VIEWS: Readonly<Record<HelpView, { readonly title: string; readonly View: () => React.ReactNode }>> = {
  guide: { title: 'Guide', View: Guide },
  glossary: { title: 'Glossary', View: Glossary },
  shortcuts: { title: 'Keyboard shortcuts', View: Shortcuts },
}

export function HelpDialog() {
  const open = useHelp((state) => state.open)
  const { title, View } = VIEWS[open ?? 'guide']
  return (
    <Dialog title={title} shown={open !== null} onClose={closeHelp} className="help-dialog">
      <View />
    </Dialog>
  )
}
