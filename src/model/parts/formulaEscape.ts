// Text that a spreadsheet program would take for a formula is led by an apostrophe, which such programs take as "this is text".
// Source: OWASP, CSV Injection (from memory): = + - @, tab and carriage return; with the wide forms of the same signs.

const FORMULA_START = /^[=+\-@\t\r＝＋－＠]/

/** The text, with an apostrophe before it where it would be read as a formula or already begins with one. */
export function escapeFormula(text: string): string {
  return FORMULA_START.test(text) || text.startsWith("'") ? `'${text}` : text
}

/** What `escapeFormula` was given; a text that it never made, such as one entered in a spreadsheet, is left unchanged. */
export function unescapeFormula(text: string): string {
  return text.startsWith("'") && (FORMULA_START.test(text.slice(1)) || text.startsWith("''"))
    ? text.slice(1)
    : text
}
