// The keyboard shortcuts, made from the same list that obeys them.

import { COMMANDS, keyText } from '../../store/commands'

const GROUPS: readonly (readonly [
  title: string,
  rows: readonly (readonly [keys: string, does: string])[],
])[] = [
  [
    'Fields',
    [
      ['Up, Down', 'one step in a number field'],
      ['Page Up, Page Down', 'ten steps in a number field'],
      ['Enter', 'accept the entry'],
      ['Esc', 'restore the previous value'],
      ['F1', 'explain the label of the field; elsewhere, open the glossary'],
    ],
  ],
  [
    'Panes',
    [
      ['F6, Shift+F6', 'go to the next or previous pane'],
      ['Up, Down', 'move through designs and budget lines'],
      ['Arrow keys on a divider', 'resize the panes'],
      ['Left, Right on tabs', 'show the previous or next tab'],
    ],
  ],
  [
    'Design',
    [
      ['Arrow keys on the drawing', 'move the fibre side by 0.1 µm, with Shift by 1 µm'],
      ['+ and − on the drawing', 'zoom'],
      ['Left, Right on the path', 'select the previous or next element'],
      ['Alt+Left, Alt+Right on the path', 'move a stub or SSC chip'],
      ['Delete on the path', 'remove the element'],
      ['Arrow keys on map or curve', 'move the working point, with Shift by ten steps'],
    ],
  ],
  [
    'Parts',
    [
      ['Up, Down, Home, End', 'show another part'],
      ['Space', 'select the part'],
      ['Shift with Up, Down', 'select several'],
      ['Ctrl+A', 'select all shown'],
      ['Delete', 'delete the selected parts that no design uses'],
    ],
  ],
  ['Measurements', [['Ctrl+V', 'paste a table or file']]],
]

export function Shortcuts() {
  const commands = COMMANDS.filter((command) => command.keys.length > 0).map(
    (command) => [command.keys.map(keyText).join(' or '), command.label] as const,
  )
  return (
    <div className="shortcuts">
      {[['Project', [...commands, ['?', 'these shortcuts'] as const]] as const, ...GROUPS].map(
        ([title, rows]) => (
          <table key={title}>
            <caption>{title}</caption>
            <tbody>
              {rows.map(([keys, does]) => (
                <tr key={keys}>
                  <th scope="row">{keys}</th>
                  <td>{does}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ),
      )}
      <p className="quiet">
        Number fields accept values with units (9.2, 9,2 µm, 0.35 deg, 6 mrad) and simple expressions such as
        10.4/2 um. On a Mac, use Cmd instead of Ctrl. All data stay on this computer; the app makes no network
        requests.
      </p>
    </div>
  )
}
