// The keys, made from the same list that obeys them.

import { useEffect, useRef } from 'react'
import { COMMANDS, keyText } from '../../store/commands'

const FIELD_KEYS: readonly (readonly [string, string])[] = [
  ['Up, Down', 'one step in a number field'],
  ['Page Up, Page Down', 'ten steps in a number field'],
  ['Enter', 'take over what is typed'],
  ['Esc', 'bring the old value back'],
  ['Arrow keys on the drawing', 'move the fibre by 0.1 µm, with Shift by 1 µm'],
  ['+ and − on the drawing', 'zoom'],
  ['Ctrl+V on the bench', 'read a copied table or file'],
]

export function HelpDialog({ shown, onClose }: { readonly shown: boolean; readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    if (shown) dialog.current?.showModal()
  }, [shown])
  const rows = [
    ...COMMANDS.filter((command) => command.keys.length > 0).map(
      (command) => [command.keys.map(keyText).join(' or '), command.label] as const,
    ),
    ...FIELD_KEYS,
  ]
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="help-title">
      <h2 id="help-title">Keys</h2>
      <table>
        <tbody>
          {rows.map(([keys, does]) => (
            <tr key={keys}>
              <th scope="row">{keys}</th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>Number fields take 9.2, 9,2 µm, 0.35 deg, 6 mrad and small expressions such as 10.4/2 um.</p>
      <p>Everything stays on this machine: the program makes no network call.</p>
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
    </dialog>
  )
}
