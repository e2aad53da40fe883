// The colours of figures in the page's theme.

import { useSyncExternalStore } from 'react'
import { PALETTES, type Palette } from '../../figures/render/palette'
import { isDark, watchDark } from '../../store/theme'

export function usePalette(): Palette {
  return useSyncExternalStore(watchDark, isDark) ? PALETTES.dark : PALETTES.light
}
