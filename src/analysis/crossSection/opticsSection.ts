// A stored cross-section as the solver takes it, at one wavelength; and a stored fibre as the mode it shows.

import { coreValue } from '../../model/quantity/quantity'
import type { IndexMapEntry, StepOverWavelength } from '../../model/schema/coreTables'
import type { CoreEntry, CrossSectionEntry } from '../../model/schema/crossSection'
import type { IndexSource } from '../../model/schema/indexSource'
import type { FibreEntry } from '../../model/schema/parts'
import { unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import {
  type Core,
  type CrossSection,
  diffusedCore,
  type FibreModeKind,
  type IndexMap,
  mapExtents,
  mappedCore,
  profiledCore,
  refractiveIndex,
  stackHeights,
  stackIndexAt,
} from '../../optics/index'

const unpacked = new WeakMap<IndexMapEntry, IndexMap>()

/** The map as numbers; the same object for the same entry. */
function mapOf(entry: IndexMapEntry): IndexMap {
  const known = unpacked.get(entry)
  if (known !== undefined) return known
  const { nx, ny, dxUm, dyUm, x0Um, y0Um } = entry
  const map = { nx, ny, dxUm, dyUm, x0Um, y0Um, steps: unpackNumbers(entry.steps) }
  unpacked.set(entry, map)
  return map
}

/** The greatest step of a map above its border. */
export const mapPeakStep = (entry: IndexMapEntry): number => mapExtents(mapOf(entry)).peakStep

/** The peak step at a wavelength, straight between the rows. */
function stepAt({ wavelengthsUm, steps }: StepOverWavelength, wavelengthUm: number): number {
  const above = wavelengthsUm.findIndex((each) => each >= wavelengthUm)
  const [from, to] = [wavelengthsUm[above - 1], wavelengthsUm[above]]
  if (from === undefined || to === undefined) return (above < 0 ? steps.at(-1) : steps[0]) ?? 0
  const share = (wavelengthUm - from) / (to - from)
  return (1 - share) * (steps[above - 1] ?? 0) + share * (steps[above] ?? 0)
}

/** Layers nearer in index are one material. */
const SAME_INDEX = 1e-6

/** The stretch of heights of one material that holds a height. */
function layerAround(stack: CrossSection, yUm: number): readonly [fromUm: number, toUm: number] {
  const here = stackIndexAt(stack, yUm)
  const heights = stackHeights(stack)
  const changes = heights.filter((height, at) => {
    const [below, above] = [
      (heights[at - 1] ?? height - 2) / 2 + height / 2,
      (heights[at + 1] ?? height + 2) / 2 + height / 2,
    ]
    return [below, above].some((y) => Math.abs(stackIndexAt(stack, y) - here) > SAME_INDEX)
  })
  return [
    changes.findLast((height) => height <= yUm) ?? Number.NEGATIVE_INFINITY,
    changes.find((height) => height > yUm) ?? Number.POSITIVE_INFINITY,
  ]
}

function indexAt(source: IndexSource, wavelengthUm: number): number {
  if (source.kind === 'value') return coreValue(source.index, 'index')
  return refractiveIndex(source.material, wavelengthUm)
}

/** Throws InputError where a material's dispersion does not reach the wavelength. */
export function opticsSection(entry: CrossSectionEntry, wavelengthUm: number): CrossSection {
  const stack = {
    substrateIndex: indexAt(entry.substrate.index, wavelengthUm),
    layers: entry.layers.map((layer) => ({
      thicknessUm: coreValue(layer.thickness, 'layerThickness'),
      index: indexAt(layer.index, wavelengthUm),
    })),
    coverIndex: indexAt(entry.cover.index, wavelengthUm),
    cores: [],
  }
  return { ...stack, cores: entry.cores.map((core) => opticsCore(core, stack, wavelengthUm)) }
}

function opticsCore(core: CoreEntry, stack: CrossSection, wavelengthUm: number): Core {
  const { profile = 'uniform', stepOverWavelength } = core
  const extent = {
    xUm: coreValue(core.x, 'corePosition'),
    bottomUm: coreValue(core.bottom, 'corePosition'),
    widthUm: coreValue(core.width, 'guideSize'),
    heightUm: coreValue(core.height, 'guideSize'),
  }
  const middleUm = extent.bottomUm + extent.heightUm / 2
  const index =
    profile === 'uniform' || stepOverWavelength === undefined
      ? indexAt(core.index, wavelengthUm)
      : stackIndexAt(stack, middleUm) + stepAt(stepOverWavelength, wavelengthUm)
  const size = { ...extent, index }
  if (profile === 'index map' && core.map === undefined) {
    throw new InputError(
      `index map of ${core.name}`,
      'none',
      'a table of indices; open one, or choose another profile',
    )
  }
  if (profile === 'index map' && core.map !== undefined) {
    return mappedCore({ ...size, map: mapOf(core.map), layer: layerAround(stack, middleUm) })
  }
  if (profile === 'user profiles') {
    return profiledCore({ ...size, along: core.widthProfile ?? null, depth: core.depthProfile ?? null })
  }
  if (profile !== 'uniform' && profile !== 'index map') return diffusedCore({ ...size, depth: profile })
  return { ...size, shape: 'trapezoid', sidewallRad: coreValue(core.sidewall, 'sidewallAngle') }
}

/** The exact mode where the core is known, else the Gaussian of the stated diameters. */
export function fibreModeKind({ mode }: FibreEntry): FibreModeKind {
  if (mode.kind === 'core') {
    return {
      kind: 'lp01',
      coreRadiusUm: coreValue(mode.coreDiameter, 'coreDiameter') / 2,
      na: coreValue(mode.na, 'na'),
    }
  }
  const mfdXUm = coreValue(mode.mfdX, 'mfd')
  return { kind: 'gaussian', mfdXUm, mfdYUm: mode.mfdY === undefined ? mfdXUm : coreValue(mode.mfdY, 'mfd') }
}
