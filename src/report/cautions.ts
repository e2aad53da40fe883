// The usual cautions, wherever the work they belong to is planned. Nothing here says that a set-up is free of hazards.

export const CAUTIONS =
  'Invisible infrared light from an open facet, fibre end or connector can injure the eye, the more so through a magnifier. Cleaved fibre ends are glass shards. UV lamps and uncured adhesives harm eyes and skin. Follow the local laser-safety rules and the responsible safety officer.'

/** Wherever a power is typed or printed. Nothing here classifies or says what is safe. */
export const LASER_CAUTIONS =
  'Invisible infrared light leaves every open facet, fibre end and unmated connector, and the eye neither sees it nor blinks at it. Magnifiers, microscopes and fibre scopes raise the hazard. Power below any figure shown here does not make a set-up safe: the laser class (IEC 60825-1) and the hazard level of a fibre system (IEC 60825-2) are found by assessment, not by this program. Follow the local rules and the laser safety officer; switch off before you look.'
