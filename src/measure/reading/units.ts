// Units that measurement files name, and how each becomes a core unit.

import type { ColumnRole, CoreUnit } from './scan'

interface UnitRule {
  readonly dimension: 'angle' | 'length' | 'power' | 'decibel'
  readonly coreUnit: CoreUnit
  /** Linear units: core value = factor × value. */
  readonly factor: number
}

const angle = (factor: number): UnitRule => ({ dimension: 'angle', coreUnit: 'rad', factor })
const length = (factor: number): UnitRule => ({ dimension: 'length', coreUnit: 'um', factor })
const watt = (factor: number): UnitRule => ({ dimension: 'power', coreUnit: 'uW', factor })
const signal: UnitRule = { dimension: 'power', coreUnit: 'relative', factor: 1 }

const RULES: Readonly<Record<string, UnitRule>> = {
  deg: angle(Math.PI / 180),
  rad: angle(1),
  mrad: angle(1e-3),
  urad: angle(1e-6),
  arcmin: angle(Math.PI / 10_800),
  nm: length(1e-3),
  um: length(1),
  mm: length(1e3),
  cm: length(1e4),
  m: length(1e6),
  w: watt(1e6),
  mw: watt(1e3),
  uw: watt(1),
  nw: watt(1e-3),
  pw: watt(1e-6),
  v: signal,
  mv: signal,
  uv: signal,
  a: signal,
  ma: signal,
  ua: signal,
  na: signal,
  counts: signal,
  linear: signal,
  '%': signal,
  dbm: { dimension: 'decibel', coreUnit: 'uW', factor: 1e3 },
  db: { dimension: 'decibel', coreUnit: 'relative', factor: 1 },
}

const SYNONYMS: Readonly<Record<string, string>> = {
  '°': 'deg',
  degs: 'deg',
  degree: 'deg',
  degrees: 'deg',
  radian: 'rad',
  radians: 'rad',
  micron: 'um',
  microns: 'um',
  micrometer: 'um',
  micrometers: 'um',
  micrometre: 'um',
  micrometres: 'um',
  count: 'counts',
  cts: 'counts',
  adu: 'counts',
  'a.u.': 'linear',
  'a.u': 'linear',
  'arb.': 'linear',
  arb: 'linear',
  'arb.u.': 'linear',
  au: 'linear',
  lin: 'linear',
  rel: 'linear',
  norm: 'linear',
  normalised: 'linear',
  normalized: 'linear',
}

/** The unit rule named by `text`, whatever its spelling; undefined if it names none. */
export function unitRule(text: string): UnitRule | undefined {
  const name = unitName(text)
  return name === undefined ? undefined : RULES[name]
}

/** The unit's plain name: '°' and 'degrees' are 'deg', 'µm' is 'um'. Undefined if `text` names no unit. */
export function unitName(text: string): string | undefined {
  const bare = text.trim().toLowerCase().replace(/[µμ]/g, 'u')
  const name = SYNONYMS[bare] ?? bare
  return Object.hasOwn(RULES, name) ? name : undefined
}

/** Rewrites file values in place as core values. A loss in dB becomes the linear power that remains of 1. */
export function toCoreUnits(values: Float64Array, rule: UnitRule, role: ColumnRole): void {
  if (rule.dimension !== 'decibel') {
    for (let i = 0; i < values.length; i++) values[i] = (values[i] as number) * rule.factor
    return
  }
  const sign = role === 'loss' ? -1 : 1
  for (let i = 0; i < values.length; i++)
    values[i] = rule.factor * 10 ** ((sign * (values[i] as number)) / 10)
}
