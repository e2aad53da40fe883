import { etalonRippleDb, fringePeriodInGapUm } from '../../../src/optics/faces/etalon'
import { faceReturnLoss } from '../../../src/optics/faces/faceReturnLoss'
import { fresnelLossDb, fresnelReflectance } from '../../../src/optics/faces/fresnel'
import { angleForExtinctionRad, extinctionRatioDb } from '../../../src/optics/faces/polarisation'
import { facePointing } from '../../../src/optics/faces/snell'
import { type CheckRow, publishedRow } from '../checkRow'

const DEGREE = Math.PI / 180

const facetLoss = (index1: number, index2: number) => () => fresnelLossDb({ index1, index2 })

const returnLoss =
  (guideIndex: number, mediumIndex: number, mfdUm = 10.4, angleDeg = 0) =>
  () =>
    faceReturnLoss({
      wavelengthUm: 1.55,
      guideIndex,
      mediumIndex,
      mfdXUm: mfdUm,
      mfdYUm: mfdUm,
      angleXRad: angleDeg * DEGREE,
      angleYRad: 0,
    })

function exitDegrees(guideIndex: number, mediumIndex: number, angleDeg: number): number {
  const pointing = facePointing({ guideIndex, mediumIndex, faceAngleRad: angleDeg * DEGREE })
  if (pointing.totalInternalReflection) throw new Error('no light leaves')
  return pointing.exitDeviationRad / DEGREE
}

const normal = (index1: number, index2: number) => fresnelReflectance({ index1, index2 }).unpolarised

const ripple = (reflectance1: number, reflectance2: number) => () =>
  etalonRippleDb({ reflectance1, reflectance2 })

const extinction = (angleDeg: number) => () => extinctionRatioDb(angleDeg * DEGREE)

export const faceChecks: readonly CheckRow[] = [
  publishedRow('fr-silica-R', () => normal(1.444024, 1)),
  publishedRow('fr-silica-loss', facetLoss(1.444024, 1)),
  publishedRow('fr-silica-RL', returnLoss(1.444024, 1)),
  publishedRow('fr-1.468-air-RL', returnLoss(1.468, 1)),
  publishedRow('fr-1.468-air-loss', facetLoss(1.468, 1)),
  publishedRow('fr-si-air-loss', facetLoss(3.4757, 1)),
  publishedRow('fr-sin-air-loss', facetLoss(1.99628, 1)),
  publishedRow('fr-1.468-1.50-loss', facetLoss(1.468, 1.5)),
  publishedRow('fr-1.468-1.56-RL', returnLoss(1.468, 1.56)),
  publishedRow('rl-angled-4-10.4-1', returnLoss(1.468, 1, 10.4, 4)),
  publishedRow('rl-angled-8-3.2-1', returnLoss(1.468, 1, 3.2, 8)),
  publishedRow('rl-angled-8-10.4-1.5', returnLoss(1.468, 1.5, 10.4, 8)),
  publishedRow('apc-exit', () => exitDegrees(1.468, 1, 8)),
  publishedRow('apc-exit-145', () => exitDegrees(1.468, 1.5, 8), {
    quantity: 'ray deviation leaving an 8 deg facet into adhesive of n = 1.50',
  }),
  publishedRow('fp-ripple-silica', ripple(0.0330066, 0.0330066)),
  publishedRow('fp-ripple-sin', ripple(normal(1.468, 1), normal(1.99628, 1)), {
    source: 'Airy function (Born and Wolf, ch. 7)',
  }),
  publishedRow('fp-ripple-si', ripple(normal(3.4757, 1), normal(3.4757, 1)), {
    source: 'Airy function (Born and Wolf, ch. 7)',
  }),
  publishedRow('fp-fsr-gap', () => fringePeriodInGapUm(1.55, 1)),
  publishedRow('pm-er-1', extinction(1)),
  publishedRow('pm-er-2', extinction(2)),
  publishedRow('pm-er-3', extinction(3)),
  publishedRow('pm-er-5', extinction(5)),
  publishedRow('pm-ang-20', () => angleForExtinctionRad(20) / DEGREE, {
    source:
      'projection of a linear state on rotated axes; a retrieved text states "less than 6 degrees" for 20 dB',
  }),
]
