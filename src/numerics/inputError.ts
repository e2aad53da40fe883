// Refusals because of the user's data, and the one error for bad arguments of a function.
// Message shape: what is wrong, the value seen, what is allowed: "gapUm is -3; must be 0 to 500".

/** Work that the data do not allow; its message says why, in words for whoever gave them. Every other error is a bug. */
export class RefusalError extends Error {}

/** A value that a calculation cannot accept. `allowed` finishes the sentence "must be ...". */
export class InputError extends RefusalError {
  readonly field: string
  readonly value: unknown
  readonly allowed: string

  constructor(field: string, value: unknown, allowed: string) {
    super(`${field} is ${describe(value)}; must be ${allowed}`)
    this.name = 'InputError'
    this.field = field
    this.value = value
    this.allowed = allowed
  }
}

function describe(value: unknown): string {
  if (value === undefined) return 'missing'
  // A word is quoted as it was given; a phrase describes what was found.
  return typeof value === 'string' && !value.includes(' ') ? `"${value}"` : String(value)
}

function isFiniteNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value)
}

/** Returns `value` if it is a finite number; throws InputError otherwise. */
export function requireFinite(field: string, value: number): number {
  if (!isFiniteNumber(value)) throw new InputError(field, value, 'a finite number')
  return value
}

/** Returns `value` if it is finite and above zero; throws InputError otherwise. */
export function requirePositive(field: string, value: number): number {
  if (!isFiniteNumber(value) || value <= 0) throw new InputError(field, value, 'a finite number above 0')
  return value
}

/** Returns `value` if it is finite and min <= value <= max; throws InputError otherwise. */
export function requireInRange(field: string, value: number, min: number, max: number): number {
  if (!isFiniteNumber(value) || value < min || value > max) {
    throw new InputError(field, value, `${min} to ${max}`)
  }
  return value
}
