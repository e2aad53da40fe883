// Typical micro-lenses: glasses and radii as catalogues list them.

import type { LensEntry, LensShapeEntry } from '../schema/parts'
import type { IndexMaterial } from '../words/indexSource'
import { COMMON_PRACTICE, remark, typical } from './verify'

type Glass = LensEntry['glass']

const material = (name: IndexMaterial): Glass => ({
  kind: 'material',
  material: name,
})
/** Lanthanum-based glass as used for small aspheres and balls, near 1550 nm. */
const HIGH_INDEX: Glass = { kind: 'value', index: typical(1.84, '1', 0.005) }
const ROD: Glass = { kind: 'value', index: typical(1.59, '1', 0.005) }

function lens(id: string, name: string, shape: LensShapeEntry, glass: Glass, apertureUm: number): LensEntry {
  return {
    id,
    name,
    remark: remark(COMMON_PRACTICE),
    shape,
    glass,
    clearAperture: typical(apertureUm, 'um'),
    coating: typical(0.25, '%'),
  }
}

const ball = (id: string, name: string, diameterUm: number, glass: Glass) =>
  lens(id, name, { kind: 'ball', diameter: typical(diameterUm, 'um', 1) }, glass, diameterUm * 0.8)

const planoConvex = (id: string, name: string, radiusUm: number, thicknessUm: number, glass: Glass) =>
  lens(
    id,
    name,
    {
      kind: 'plano-convex',
      radius: typical(radiusUm, 'um', radiusUm / 100),
      thickness: typical(thicknessUm, 'um', 10),
    },
    glass,
    Math.min(1000, 1.4 * radiusUm),
  )

/** Flat silicon plates with etched lenses come as arrays at the usual pitches; the aperture leaves 8 % of it as land. */
const siliconArray = (id: string, radiusUm: number, thicknessUm = 500, pitchUm = 250): LensEntry => ({
  ...planoConvex(
    id,
    `Silicon lens array, ${radiusUm} µm radius${pitchUm === 250 ? '' : `, ${pitchUm} µm pitch`}`,
    radiusUm,
    thicknessUm,
    material('silicon'),
  ),
  clearAperture: typical(Math.floor(0.92 * pitchUm), 'um'),
  pitch: typical(pitchUm, 'um', 0.25),
})

const thin = (id: string, focalUm: number, apertureUm: number) =>
  lens(
    id,
    `Asphere, f ${focalUm / 1000} mm`,
    { kind: 'thin', focalLength: typical(focalUm, 'um', focalUm / 100) },
    HIGH_INDEX,
    apertureUm,
  )

export const CATALOGUE_LENSES: readonly LensEntry[] = [
  ball('ball-300-sapphire', 'Sapphire ball, 0.3 mm', 300, material('sapphire')),
  ball('ball-500-sapphire', 'Sapphire ball, 0.5 mm', 500, material('sapphire')),
  ball('ball-1000-crown', 'Borosilicate crown ball, 1 mm', 1000, material('borosilicate crown glass')),
  ball('ball-500-high', 'High-index ball, 0.5 mm', 500, HIGH_INDEX),
  planoConvex('plano-250-silica', 'Silica plano-convex, 0.25 mm radius', 250, 250, material('fused silica')),
  planoConvex('plano-500-silica', 'Silica plano-convex, 0.5 mm radius', 500, 500, material('fused silica')),
  planoConvex('plano-1200-silicon', 'Silicon plano-convex, 1.2 mm radius', 1200, 500, material('silicon')),
  siliconArray('array-silicon-700', 700),
  siliconArray('array-silicon-1500', 1500),
  siliconArray('array-silicon-250', 250, 200),
  siliconArray('array-silicon-127-700', 700, 500, 127),
  siliconArray('array-silicon-127-250', 250, 200, 127),
  lens(
    'biconvex-crown',
    'Crown biconvex, 0.6 mm radii',
    {
      kind: 'biconvex',
      frontRadius: typical(600, 'um', 6),
      backRadius: typical(600, 'um', 6),
      thickness: typical(400, 'um', 10),
    },
    material('borosilicate crown glass'),
    700,
  ),
  lens(
    'rod-0.23',
    'Gradient-index rod, 0.23 pitch',
    {
      kind: 'gradient index',
      rodPitch: typical(0.23, '1', 0.003),
      length: typical(2, 'mm', 0.02),
    },
    ROD,
    700,
  ),
  thin('asphere-300', 300, 350),
  thin('asphere-700', 700, 800),
  thin('asphere-1000', 1000, 1100),
]
