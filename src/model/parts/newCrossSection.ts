// The cross-section of the guide at a chip facet: a substrate, layers upwards, a cover, and cores. x runs along the chip
// surface from the middle of the guide; heights are measured from the substrate's surface. Of overlapping cores the later one takes precedence.

import { rounded } from '../../numerics/numberText'
import { refractiveIndex } from '../../optics/index'
import { quantityOf } from '../quantity/quantity'
import type { CoreEntry, CrossSectionEntry, LayerEntry } from '../schema/crossSection'

const glass = { kind: 'material', material: 'fused silica' } as const

export function newLayer(layerId: string): LayerEntry {
  return { id: layerId, name: 'Layer', thickness: quantityOf(1, 'um'), index: { ...glass } }
}

export function newCore(coreId: string, bottomUm: number): CoreEntry {
  return {
    id: coreId,
    name: 'Core',
    width: quantityOf(0.3, 'um'),
    height: quantityOf(0.2, 'um'),
    sidewall: quantityOf(90, 'deg'),
    x: quantityOf(0, 'um'),
    bottom: quantityOf(bottomUm, 'um'),
    index: { kind: 'material', material: 'silicon nitride' },
  }
}

/** A silicon-nitride tip in oxide on silicon, of the guide's stated size: a start to be replaced. */
export function newCrossSection(widthUm: number, heightUm: number): CrossSectionEntry {
  const below = 4
  return {
    polarisation: 'TE',
    substrate: { index: { kind: 'material', material: 'silicon' } },
    layers: [
      { ...newLayer('layer-1'), name: 'Lower oxide', thickness: quantityOf(below, 'um') },
      { ...newLayer('layer-2'), name: 'Upper oxide', thickness: quantityOf(3.5, 'um') },
    ],
    cover: { index: { kind: 'material', material: 'air' } },
    cores: [
      {
        ...newCore('core-1', below),
        name: 'Tip',
        width: quantityOf(widthUm, 'um'),
        height: quantityOf(heightUm, 'um'),
      },
    ],
  }
}

/** Twice the step that a parabola of the same width would need, because the sides of a Gaussian confine less. Own estimate. */
const STEP_EXCESS = 2

/**
 * A core diffused in glass about as wide as the mode that it should have, um: a start to be replaced. The mode of a parabolic index has
 * the radius w where w^2 = 2 a / (k sqrt(2 n step)) with the half width a (D. Marcuse, Light Transmission Optics, 1982, ch. 7).
 */
export function newGlassSection(
  mfdUm: { readonly x: number; readonly y: number },
  wavelengthUm: number,
): CrossSectionEntry {
  const hostIndex = refractiveIndex('fused silica', wavelengthUm)
  const radiusUm = Math.sqrt(mfdUm.x * mfdUm.y) / 2
  const step = (STEP_EXCESS * (wavelengthUm / (Math.PI * radiusUm)) ** 2) / (2 * hostIndex)
  return {
    polarisation: 'TE',
    substrate: { index: { ...glass } },
    layers: [],
    cover: { index: { ...glass } },
    cores: [
      {
        ...newCore('core-1', 0),
        profile: 'buried Gaussian',
        width: quantityOf(mfdUm.x, 'um'),
        height: quantityOf(mfdUm.y, 'um'),
        index: { kind: 'value', index: quantityOf(rounded(hostIndex + step, 5), '1') },
      },
    ],
  }
}
