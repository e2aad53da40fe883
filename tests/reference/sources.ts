// Publications that several checks name, and what is treated as naming one.

export const SCIPY = 'SciPy (P. Virtanen et al., Nat. Methods 17 (2020) 261)'
export const NUMPY = 'NumPy (C. R. Harris et al., Nature 585 (2020) 357)'
export const GLOGE = 'D. Gloge, Appl. Opt. 10 (1971) 2252'
export const MARCUSE =
  'D. Marcuse, Loss analysis of single-mode fiber splices, Bell Syst. Tech. J. 56 (1977) 703 (from memory)'
export const JOYCE_DELOACH =
  'W. B. Joyce and B. C. DeLoach, Alignment of Gaussian beams, Appl. Opt. 23 (1984) 4187 (from memory)'
/** Sampled on a grid, carried by the angular spectrum, summed. */
export const SAMPLED_FIELD = `angular spectrum of the sampled field (J. W. Goodman, Introduction to Fourier Optics (1996), from memory) by ${NUMPY}`

const YEAR = /\b(1[5-9]|20)\d\d\b/
const STANDARD = /\b(ISO|IEC|ITU-T|JCGM)[ /]?[A-Z]?\.?\d/
const INSTITUTION = /\bUniversity\b/
const LABELS = ['common practice, no source', 'value from memory']
/** How a text was obtained does not matter. */
const HOW_FOUND = /\b(abstract|retrieved|encyclopaedia|lecture|looked up|at hand|page read|text read)\b/i

/** Whether a source names a publication, or wears one of the labels for what has none, and says nothing about how it was found. */
export function isSource(text: string): boolean {
  const named = [YEAR, STANDARD, INSTITUTION].some((pattern) => pattern.test(text))
  return (named || LABELS.some((label) => text.includes(label))) && !HOW_FOUND.test(text)
}
