// Typical lensed tips and taper chips.

import type { ConverterEntry, LensedTipEntry, TaperChipEntry } from '../schema/parts'
import { COMMON_PRACTICE, remark, typical } from './verify'

const TIP_PRACTICE = `${COMMON_PRACTICE}: spots of 2 to 6 µm ± 0.3 to 0.5 µm at 5 to 20 µm; air only, never adhesive`

function spotTip(id: string, spotUm: number, plusMinusUm: number, workingUm: number): LensedTipEntry {
  return {
    kind: 'lensed tip',
    id,
    name: `Lensed fibre, ${spotUm} µm spot`,
    remark: remark(TIP_PRACTICE),
    tip: {
      kind: 'spot',
      spotX: typical(spotUm, 'um', plusMinusUm),
      workingDistance: typical(workingUm, 'um', 2),
    },
  }
}

function groundTip(id: string, radiusUm: number): LensedTipEntry {
  return {
    kind: 'lensed tip',
    id,
    name: `Lensed fibre, ${radiusUm} µm radius`,
    remark: remark(
      `spot computed from the fibre's mode; below a radius of about 8 µm, aberration dominates; ${COMMON_PRACTICE}`,
    ),
    tip: { kind: 'radius', radius: typical(radiusUm, 'um', 0.5) },
  }
}

function taperChip(id: string, outputUm: number, outputPitchUm: number): TaperChipEntry {
  const pitch = outputPitchUm === 127 ? '' : `, 127 to ${outputPitchUm} µm pitch`
  return {
    kind: 'taper chip',
    id,
    name: `SSC chip, 10 to ${outputUm} µm${pitch}`,
    remark: remark(`${COMMON_PRACTICE}: converts the mode of a standard fibre to 3 to 4 µm`),
    inputMfdX: typical(10, 'um', 0.5),
    inputMfdY: typical(10, 'um', 0.5),
    outputMfdX: typical(outputUm, 'um', 0.3),
    outputMfdY: typical(outputUm, 'um', 0.3),
    transmissionLoss: typical(0.5, 'dB', 0.2),
    inputPitch: typical(127, 'um', 0.3),
    outputPitch: typical(outputPitchUm, 'um', 0.2),
    holder: 'on a separate glass carrier next to the chip',
    index: { kind: 'value', index: typical(1.47, '1', 0.01) },
  }
}

export const CATALOGUE_CONVERTERS: readonly ConverterEntry[] = [
  spotTip('tip-2', 2, 0.3, 5),
  spotTip('tip-2.5', 2.5, 0.3, 10),
  spotTip('tip-3', 3, 0.4, 12),
  spotTip('tip-4', 4, 0.5, 15),
  spotTip('tip-5', 5, 0.5, 20),
  groundTip('tip-radius-10', 10),
  groundTip('tip-radius-15', 15),
  taperChip('taper-3', 3, 127),
  taperChip('taper-3.5', 3.5, 127),
  taperChip('taper-4', 4, 127),
  taperChip('taper-3.5-50', 3.5, 50),
]
