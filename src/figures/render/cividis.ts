// The scale of maps and pictures, dark at the bottom, the same for readers with and without red-green deficiency.
// Source: cividis, J. R. Nunez et al., PLoS ONE 13 (2018) e0199239, thinned to five colours.

export const CIVIDIS = [
  [0, '#00224e'],
  [0.25, '#414d6b'],
  [0.5, '#7c7b78'],
  [0.75, '#bcaf6f'],
  [1, '#fee838'],
] as const
