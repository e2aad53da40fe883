// The quantities over which a cross-section can be swept, and the cross-section with another value of one.

import { setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { CoreEntry, CrossSectionEntry } from '../../model/schema/crossSection'
import { byId } from '../../model/words/byId'

export type SweepVariable =
  /** All cores where `coreId` is null; each keeps its size relative to the first. */
  | { readonly kind: 'width' | 'height' | 'sidewall'; readonly coreId: string | null }
  | { readonly kind: 'thickness'; readonly layerId: string }
  | { readonly kind: 'wavelength' }

export interface SweepChoice {
  readonly variable: SweepVariable
  readonly key: string
  readonly label: string
  readonly rule: RuleName
  /** Present value in the core's unit. */
  readonly now: number
}

const RULE_OF = { width: 'guideSize', height: 'guideSize', sidewall: 'sidewallAngle' } as const
const LABEL_OF = { width: 'width', height: 'height', sidewall: 'sidewall angle' } as const

/** A diffused core has no sidewalls. */
const sizesOf = ({ profile = 'uniform' }: CoreEntry) =>
  profile === 'uniform' ? (['width', 'height', 'sidewall'] as const) : (['width', 'height'] as const)

/** Everything that this cross-section can be swept over; the first is the usual one. */
export function sweepChoices(section: CrossSectionEntry, wavelengthUm: number): readonly SweepChoice[] {
  const first = section.cores[0]
  const shared =
    section.cores.length < 2 || first === undefined
      ? []
      : (['width', 'height'] as const).map((kind) => ({
          variable: { kind, coreId: null },
          key: `${kind}/all`,
          label: `${LABEL_OF[kind]} of all cores`,
          rule: RULE_OF[kind],
          now: coreValue(first[kind], RULE_OF[kind]),
        }))
  const ofCores = section.cores.flatMap((core) =>
    sizesOf(core).map((kind) => ({
      variable: { kind, coreId: core.id },
      key: `${kind}/${core.id}`,
      label: `${LABEL_OF[kind]} of ${core.name}`,
      rule: RULE_OF[kind],
      now: coreValue(core[kind], RULE_OF[kind]),
    })),
  )
  const ofLayers = section.layers.map((layer) => ({
    variable: { kind: 'thickness' as const, layerId: layer.id },
    key: `thickness/${layer.id}`,
    label: `thickness of ${layer.name}`,
    rule: 'layerThickness' as const,
    now: coreValue(layer.thickness, 'layerThickness'),
  }))
  return [
    ...shared,
    ...ofCores,
    ...ofLayers,
    {
      variable: { kind: 'wavelength' },
      key: 'wavelength',
      label: 'wavelength',
      rule: 'wavelength',
      now: wavelengthUm,
    },
  ]
}

const FEW_DIGITS = 6

function scale(quantity: Quantity, rule: RuleName, factor: number): void {
  setCoreValue(quantity, rule, coreValue(quantity, rule) * factor, FEW_DIGITS)
}

/** Writes a new value of a size into the draft. Cores on or above a layer that grows move up with its top. */
export function setVariable(draft: CrossSectionEntry, variable: SweepVariable, value: number): void {
  if (variable.kind === 'wavelength') return
  if (variable.kind === 'thickness') {
    const at = draft.layers.findIndex((layer) => layer.id === variable.layerId)
    const layer = draft.layers[at]
    if (layer === undefined) return
    const old = coreValue(layer.thickness, 'layerThickness')
    const top = draft.layers
      .slice(0, at + 1)
      .reduce((sum, each) => sum + coreValue(each.thickness, 'layerThickness'), 0)
    for (const core of draft.cores) {
      const bottom = coreValue(core.bottom, 'corePosition')
      if (bottom >= top - 1e-9) setCoreValue(core.bottom, 'corePosition', bottom + value - old, FEW_DIGITS)
    }
    setCoreValue(layer.thickness, 'layerThickness', value, FEW_DIGITS)
    return
  }
  const { kind, coreId } = variable
  const rule = RULE_OF[kind]
  const first = draft.cores[0]
  if (first === undefined) return
  if (coreId === null) {
    const factor = value / coreValue(first[kind], rule)
    for (const core of draft.cores) scale(core[kind], rule, factor)
    return
  }
  const core = byId(draft.cores, coreId)
  if (core !== undefined) setCoreValue(core[kind], rule, value, FEW_DIGITS)
}
