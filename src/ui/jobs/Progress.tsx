// How far a computation is, once it takes long enough to be noticed.

export function Progress({ label, share }: { readonly label: string; readonly share: number | null }) {
  if (share === null) return null
  return (
    <p className="quiet progress" role="status">
      {label} <progress max={1} value={share} aria-label={label} />
    </p>
  )
}
