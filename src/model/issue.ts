// What is wrong with data from the user: plain objects, collected, never thrown.
// Message shape: what is wrong, the value seen, what is allowed.

export type Path = readonly (string | number)[]

export type IssueCode = 'missing' | 'range' | 'unit' | 'format' | 'reference' | 'sequence' | 'size'

export interface Issue {
  readonly path: Path
  readonly code: IssueCode
  readonly message: string
  readonly fix?: string
}

export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] }

export function success<T>(value: T, warnings: readonly Issue[] = []): Result<T> {
  return { ok: true, value, warnings }
}

export function failure<T>(...issues: readonly Issue[]): Result<T> {
  return { ok: false, issues }
}

/** A path as people read it: `candidates[0].chain[2].gap`. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`
    return text === '' ? step : `${text}.${step}`
  }, '')
}

/** A sentence starts with a capital, except where its first word is the name of a field in a file or in code. */
function withCapital(text: string): string {
  return /^[a-z][a-z-]*(?: |$)/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text
}

/** An issue as sentences: what is wrong, then what helps. */
export function issueText({ message, fix }: Pick<Issue, 'message' | 'fix'>): string {
  const wrong = `${withCapital(message.replace(/\.$/, ''))}.`
  return fix === undefined ? wrong : `${wrong} ${fix}`
}
