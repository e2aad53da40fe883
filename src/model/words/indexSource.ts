// Where a refractive index comes from: a material with dispersion, or an entered number.

export const MATERIAL_NAMES = [
  'air',
  'fused silica',
  'silicon',
  'silicon nitride',
  'borosilicate crown glass',
  'sapphire',
] as const
export type IndexMaterial = (typeof MATERIAL_NAMES)[number]
