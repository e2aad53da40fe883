// The typeface inside a file: pictures and sheets that leave the app look the same where it is not installed.
// Loaded with the first file that is made, not with the page.

import font from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?inline'

/** An `@font-face` rule with the font in it; SIL Open Font Licence 1.1 allows embedding. */
export const FONT_FACE = `@font-face{font-family:'Source Sans 3 Variable';font-weight:200 900;src:url(${font}) format('woff2')}`
