// The line under a field that was refused.

/** Says what is wrong with what was entered, as soon as it is entered; nothing while `text` is empty. */
export function Complaint({ id, text }: { readonly id?: string | undefined; readonly text: string }) {
  if (text === '') return null
  return (
    <p className="complaint" id={id} role="alert">
      {text}
    </p>
  )
}
