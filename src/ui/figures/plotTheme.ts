// The colours of the page, handed to the figures, which cannot read style sheets.

import { useSyncExternalStore } from 'react'
import type { PlotTheme } from '../../plots/figure'
import { isDark, watchDark } from '../../store/theme'

const FONT = "'Source Sans 3 Variable', system-ui, sans-serif"
const LIGHT: PlotTheme = { ink: '#1c2126', rule: '#dedacd', accent: '#0b5a8a', font: FONT }
const DARK: PlotTheme = { ink: '#e8e6df', rule: '#343b41', accent: '#6cbbe8', font: FONT }

export function usePlotTheme(): PlotTheme {
  return useSyncExternalStore(watchDark, isDark) ? DARK : LIGHT
}
