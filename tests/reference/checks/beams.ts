import {
  backFocalDistanceUm,
  ballLens,
  chainMatrices,
  effectiveFocalLengthUm,
  freeSpace,
  thinLens,
  transformBeam,
} from '../../../src/optics/beam/abcd'
import { apertureTransmission } from '../../../src/optics/beam/aperture'
import { MFD_PER_FWHM } from '../../../src/optics/beam/gaussianBeam'
import { lensedTipFocus } from '../../../src/optics/lens/lensedTip'
import { type CheckRow, recordedRow } from '../checkRow'

const imaged = () =>
  transformBeam(chainMatrices([freeSpace(1200), thinLens(1000)]), {
    waistRadiusUm: 5.2,
    waistDistanceUm: 0,
    wavelengthUm: 1.55,
    index: 1,
  })

/** A lensed fibre: the mode, flat at the tip, leaves through one convex face whose centre lies in the fibre. */
const workingDistance = (modeRadiusUm: number, tipRadiusUm: number) => () =>
  lensedTipFocus({ modeRadiusUm, tipRadiusUm, fibreIndex: 1.45, mediumIndex: 1, wavelengthUm: 1.55 })
    .workingDistanceUm

/** MFD ratio of an afocal relay whose focal lengths have the ratio of the modes. */
function relayMagnification(): number {
  const [f1, f2] = [320, 1040]
  const relay = chainMatrices([freeSpace(f1), thinLens(f1), freeSpace(f1 + f2), thinLens(f2), freeSpace(f2)])
  const image = transformBeam(relay, { waistRadiusUm: 1.6, waistDistanceUm: 0, wavelengthUm: 1.55, index: 1 })
  return image.waistRadiusUm / 1.6
}

const sphere = (index: number, diameterMm: number) => ballLens({ index, diameterUm: diameterMm * 1000 })

const passed = (ratio: number) => () => apertureTransmission({ apertureRadiusUm: ratio, beamRadiusUm: 1 })

export const beamChecks: readonly CheckRow[] = [
  recordedRow('abcd-lens-w', () => imaged().waistRadiusUm),
  recordedRow('abcd-lens-z', () => imaged().waistDistanceUm),
  recordedRow('relay-M', relayMagnification, {
    input: 'mfd in um 3.2, mfd out um 10.4, f1 um 320, f2 um 1040',
  }),
  recordedRow('ball-bfl-borosilicate-crown', () => backFocalDistanceUm(sphere(1.500652, 1)) / 1000),
  recordedRow('ball-f-sapphire', () => effectiveFocalLengthUm(sphere(1.746182, 0.3)) / 1000),
  recordedRow('ball-bfl-sapphire', () => backFocalDistanceUm(sphere(1.746182, 0.3)) / 1000),
  recordedRow('trunc-1.5', passed(1.5)),
  recordedRow('trunc-2', passed(2)),
  recordedRow('lf-wd-10-5.2', workingDistance(5.2, 10)),
  recordedRow('lf-wd-15-5.2', workingDistance(5.2, 15)),
  recordedRow('lf-wd-8-4.0', workingDistance(4, 8)),
  recordedRow('fwhm-mfd', () => MFD_PER_FWHM, { input: 'a Gaussian' }),
]
