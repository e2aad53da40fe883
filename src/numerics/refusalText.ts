// A refusal in the words of whoever entered the data: an argument of the core by its name, with the unit that the name carries.

import { InputError, type RefusalError } from './inputError'
import { plainText } from './numberText'

const UNITS: Readonly<Record<string, (value: number) => string>> = {
  Um: (value) => `${plainText(value)} µm`,
  Rad: (value) => `${plainText((value * 180) / Math.PI, 4)}°`,
  Db: (value) => `${plainText(value)} dB`,
}
const ARGUMENT = new RegExp(`^([a-z][A-Za-z]*)(${Object.keys(UNITS).join('|')})$`)
const RANGE = /^(-?[\d.e+-]+) to (-?[\d.e+-]+)$/

/** `tiltXRad is 2; must be -1.5 to 1.5` as `tilt x is 114.6°; must be −85.94° to 85.94°`; any other message as it is. */
export function refusalText(error: RefusalError): string {
  if (!(error instanceof InputError) || typeof error.value !== 'number') return error.message
  const [, name = '', unit = ''] = ARGUMENT.exec(error.field) ?? []
  const inUnit = UNITS[unit]
  if (inUnit === undefined) return error.message
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replace(/\bmfd\b/, 'MFD')
  const [, least, most] = RANGE.exec(error.allowed) ?? []
  const allowed =
    least === undefined || most === undefined
      ? error.allowed
      : `${inUnit(Number(least))} to ${inUnit(Number(most))}`
  return `${words} is ${inUnit(error.value)}; must be ${allowed}`
}
