// A stored cross-section as the solver takes it, at one wavelength; and a stored fibre as the mode it shows.

import { coreValue } from '../../model/quantity/quantity'
import type { CoreEntry, CrossSectionEntry } from '../../model/schema/crossSection'
import type { IndexSource } from '../../model/schema/indexSource'
import type { FibreEntry } from '../../model/schema/parts'
import {
  type Core,
  type CrossSection,
  diffusedCore,
  type FibreModeKind,
  refractiveIndex,
} from '../../optics/index'

function indexAt(source: IndexSource, wavelengthUm: number): number {
  if (source.kind === 'value') return coreValue(source.index, 'index')
  return refractiveIndex(source.material, wavelengthUm)
}

/** Throws InputError where a material's dispersion does not reach the wavelength. */
export function opticsSection(entry: CrossSectionEntry, wavelengthUm: number): CrossSection {
  return {
    substrateIndex: indexAt(entry.substrate.index, wavelengthUm),
    layers: entry.layers.map((layer) => ({
      thicknessUm: coreValue(layer.thickness, 'layerThickness'),
      index: indexAt(layer.index, wavelengthUm),
    })),
    coverIndex: indexAt(entry.cover.index, wavelengthUm),
    cores: entry.cores.map((core) => opticsCore(core, wavelengthUm)),
  }
}

function opticsCore(core: CoreEntry, wavelengthUm: number): Core {
  const { profile = 'uniform' } = core
  const size = {
    xUm: coreValue(core.x, 'corePlace'),
    bottomUm: coreValue(core.bottom, 'corePlace'),
    widthUm: coreValue(core.width, 'guideSize'),
    heightUm: coreValue(core.height, 'guideSize'),
    index: indexAt(core.index, wavelengthUm),
  }
  if (profile !== 'uniform') return diffusedCore({ ...size, depth: profile })
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
