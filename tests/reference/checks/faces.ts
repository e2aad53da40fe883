import { etalonRippleDb, fringePeriodInGapUm } from '../../../src/optics/faces/etalon'
import { faceReturnLoss } from '../../../src/optics/faces/faceReturnLoss'
import { fresnelLossDb, fresnelReflectance } from '../../../src/optics/faces/fresnel'
import { angleForExtinctionRad, extinctionRatioDb } from '../../../src/optics/faces/polarisation'
import { facePointing } from '../../../src/optics/faces/snell'
import { type CheckRow, recordedRow } from '../checkRow'

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
  recordedRow('fr-silica-R', () => normal(1.444024, 1)),
  recordedRow('fr-silica-loss', facetLoss(1.444024, 1)),
  recordedRow('fr-silica-RL', returnLoss(1.444024, 1)),
  recordedRow('fr-1.468-air-RL', returnLoss(1.468, 1)),
  recordedRow('fr-1.468-air-loss', facetLoss(1.468, 1)),
  recordedRow('fr-si-air-loss', facetLoss(3.4757, 1)),
  recordedRow('fr-sin-air-loss', facetLoss(1.99628, 1)),
  recordedRow('fr-1.468-1.50-loss', facetLoss(1.468, 1.5)),
  recordedRow('fr-1.468-1.56-RL', returnLoss(1.468, 1.56)),
  recordedRow('rl-angled-4-10.4-1', returnLoss(1.468, 1, 10.4, 4)),
  recordedRow('rl-angled-8-3.2-1', returnLoss(1.468, 1, 3.2, 8)),
  recordedRow('rl-angled-8-10.4-1.5', returnLoss(1.468, 1.5, 10.4, 8)),
  recordedRow('apc-exit', () => exitDegrees(1.468, 1, 8)),
  recordedRow('apc-exit-145', () => exitDegrees(1.468, 1.5, 8)),
  recordedRow('fp-ripple-silica', ripple(0.0330066, 0.0330066)),
  recordedRow('fp-ripple-sin', ripple(normal(1.468, 1), normal(1.99628, 1))),
  recordedRow('fp-ripple-si', ripple(normal(3.4757, 1), normal(3.4757, 1))),
  recordedRow('fp-fsr-gap', () => fringePeriodInGapUm(1.55, 1)),
  recordedRow('pm-er-1', extinction(1)),
  recordedRow('pm-er-2', extinction(2)),
  recordedRow('pm-er-3', extinction(3)),
  recordedRow('pm-er-5', extinction(5)),
  recordedRow('pm-ang-20', () => angleForExtinctionRad(20) / DEGREE),
]
