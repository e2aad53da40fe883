// The usual cautions, wherever the work they belong to is planned. Nothing here says that a set-up is free of hazards.

export const CAUTIONS =
  'Invisible infrared light from an open facet, fibre end or connector can injure the eye, the more so through a magnifier. Cleaved fibre ends are glass shards. UV lamps and uncured adhesives harm eyes and skin. Follow the local laser-safety rules and the responsible safety officer.'
