// The one caution text, wherever the work it belongs to is planned, typed or printed. Nothing here classifies, or says what is safe.

export const CAUTIONS =
  'Invisible infrared light leaves every open facet, fibre end and unmated connector and can injure the eye, which neither sees it nor blinks at it; magnifiers, microscopes and fibre scopes raise the hazard. Power below any figure shown here does not make a set-up safe: the laser class (IEC 60825-1) and the hazard level of a fibre system (IEC 60825-2) are found by assessment, not by this program. Cleaved fibre ends are glass shards. UV lamps and uncured adhesives harm eyes and skin. Switch the light off before you look. Follow the local laser-safety rules and the responsible safety officer.'
