// The menu of the help: guide, glossary, shortcuts, the tour.

import { openHelp, startTour } from '../../store/help'
import { Menu } from '../../ui/controls/Menu'

export function HelpMenu() {
  return (
    <Menu
      label="Help"
      align="end"
      entries={() => [
        {
          id: 'first',
          label: 'First ten minutes',
          onChoose: () => openHelp('guide', 'first-ten-minutes'),
        },
        { id: 'tour', label: 'Guided tour', onChoose: startTour },
        { id: 'reference', break: true },
        { id: 'guide', label: 'Guide', onChoose: () => openHelp('guide') },
        { id: 'glossary', label: 'Glossary', keys: 'F1', onChoose: () => openHelp('glossary') },
        { id: 'shortcuts', label: 'Keyboard shortcuts', keys: '?', onChoose: () => openHelp('shortcuts') },
      ]}
    >
      ?
    </Menu>
  )
}
