// The cautions about laser light, wherever a power is typed or printed. Nothing here classifies or says what is safe.

export function LaserCautions() {
  return (
    <aside className="cautions" aria-label="Laser cautions">
      <p>
        Invisible infrared light leaves every open facet, fibre end and unmated connector, and the eye neither
        sees it nor blinks at it. Magnifiers, microscopes and fibre scopes raise the hazard. Power below any
        figure shown here does not make a set-up safe: the laser class (IEC 60825-1) and the hazard level of a
        fibre system (IEC 60825-2) are found by assessment, not by this program. Follow the local rules and
        the laser safety officer; switch off before you look.
      </p>
    </aside>
  )
}
