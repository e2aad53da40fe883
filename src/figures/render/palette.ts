// Every colour and line width of figures, for both themes and for paper. The page's style sheet, both renderers and the
// workbook agree with it.

import type { Dash, Weight } from '../chart'

/** Okabe and Ito's colours for colour-blind readers (Color Universal Design, 2008), kinds that belong together in one. */
const CAUSES = {
  mismatch: '#0072b2',
  misalignment: '#56b4e9',
  reflection: '#e69f00',
  clipping: '#d55e00',
  splice: '#009e73',
  parts: '#cc79a7',
  user: '#999999',
} as const

const LIGHT = {
  paper: '#fbfaf6',
  ink: '#1c2126',
  quiet: '#565d64',
  rule: '#dedacd',
  accent: '#0b5a8a',
  band: '#e4e1d6',
  soft: '#d5dde2',
  bad: '#9b2c14',
  glass: '#e9edee',
  glassEdge: '#8d979c',
  air: '#f6f7f5',
  adhesive: '#f3ecd9',
  core: '#1c2126',
  beam: '#9cbdd3',
  beamEdge: '#0b5a8a',
  over: '#ffffff',
  ...CAUSES,
} as const

export type Tone = keyof typeof LIGHT
export type Palette = Readonly<Record<Tone, string>>

const DARK: Palette = {
  paper: '#14171a',
  ink: '#e8e6df',
  quiet: '#a3a9ae',
  rule: '#343b41',
  accent: '#6cbbe8',
  band: '#2b3238',
  soft: '#31404b',
  bad: '#f09a80',
  glass: '#252a2f',
  glassEdge: '#6b757c',
  air: '#191d21',
  adhesive: '#2c2920',
  core: '#e8e6df',
  beam: '#33586f',
  beamEdge: '#6cbbe8',
  over: '#ffffff',
  ...CAUSES,
}

/** The page in its two themes, and white paper. */
export const PALETTES = {
  light: LIGHT,
  dark: DARK,
  paper: { ...LIGHT, paper: '#ffffff' },
} as const satisfies Readonly<Record<string, Palette>>

export const WIDTH_PX: Readonly<Record<Weight, number>> = { fine: 1, normal: 1.5, strong: 2.25 }

/** Dashes in px; also how the plotting library takes them. */
export const DASHES: Readonly<Record<Dash, string>> = {
  solid: '',
  dash: '7 4',
  dot: '2 3',
  dashdot: '7 3 2 3',
  longdash: '12 4',
}

export const FONT_FAMILY = "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif"
export const FONT_PX = 13
