import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { offsetScanMfd, readScan } from '../../src/measure'
import { lp01Intensity } from '../../src/measure/farField/farFieldShape'
import { petermann2MfdUm, petermannIntegrals } from '../../src/measure/farField/petermannIntegral'
import { petermann1Over2 } from '../../src/measure/farField/petermannRatio'
import { noiseSigma } from '../../src/measure/fit/noiseModel'
import { combine, typeB } from '../../src/measure/fit/uncertaintyBudget'
import { wideningOf } from '../../src/measure/fit/widening'
import { explainDifference } from '../../src/measure/loopback/explainDifference'
import { loopbackLoss } from '../../src/measure/loopback/loopback'
import { repeatedMeasurements } from '../../src/measure/loopback/repeatedMeasurements'
import { principalWidths } from '../../src/measure/nearField/imageMoments'
import { scannedWindows } from '../../src/measure/offset/toleranceWindow'
import { studentT } from '../../src/numerics/statistics'
import { solveLp01 } from '../../src/optics/fibre/stepIndexMode'
import { gaussianOffsetScan } from './support/synthetic'

const DEGREE = Math.PI / 180
const text = readFileSync(new URL('../../docs/measurements.md', import.meta.url), 'utf8')

const value = (file: string, column: number) => readScan(file).columns[column]?.values[0] ?? Number.NaN

/** A scan whose own 1/e² radius is W, over a known probe. */
function scanOfRadius(radiusUm: number, probeMfdUm: number, probeMfdStandardUm = 0) {
  const mfdUm = Math.sqrt(4 * radiusUm ** 2 - probeMfdUm ** 2)
  return offsetScanMfd({ ...gaussianOffsetScan({ probeMfdUm, mfdUm, centreUm: 0 }), probeMfdStandardUm })
}

const cut = (intensity: (angle: number) => number, wavelengthUm: number, limitDeg: number) =>
  petermann2MfdUm(petermannIntegrals(intensity, limitDeg * DEGREE), wavelengthUm)
const gaussian = (mfdUm: number) => (angle: number) =>
  Math.exp(-2 * ((Math.PI * mfdUm * Math.sin(angle)) / 3.1) ** 2)
const lp01 = solveLp01(2.2)
const ellipse = principalWidths(1.9375, 1.3125, 0.541265877365274)
const series = () =>
  loopbackLoss({
    points: [
      { lengthCm: 0.5, lossDb: 3.1 },
      { lengthCm: 2, lossDb: 4.3 },
    ],
  })

const WORKED: Readonly<Record<string, () => number>> = {
  '-20 dBm in uW': () => value('x_um,P_dBm\n0,-20\n1,-30', 1),
  '90 degrees in rad': () => value('angle_deg,P_uW\n90,1\n91,2', 0),
  'noise of 0.01 constant and 2 % of a signal of 1': () => noiseSigma({ absolute: 0.01, relative: 0.02 }, 1),
  'unknown MFD of a scan of W = 5.4406 um with a probe of 10.4 um': () => scanOfRadius(5.4406, 10.4).mfdUm,
  'uncertainty of a 3.2 um mode from 0.05 um of a 10.4 um probe': () =>
    scanOfRadius(5.440588, 10.4, 0.05).budget.combinedUm,
  'half width for 1 dB at W = 5.4120 um': () =>
    scannedWindows(new Float64Array(0), new Float64Array(0), 1, 5.412, [1])[0]?.fittedHalfWidthUm ??
    Number.NaN,
  'Gaussian far field of MFD 10.4 um at 1.55 um, whole': () => cut(gaussian(10.4), 1.55, 90),
  'Gaussian far field of MFD 3.2 um at 1.55 um, cut at 30 degrees': () => cut(gaussian(3.2), 1.55, 30),
  'Gaussian far field of MFD 3.2 um at 1.55 um, cut at 20 degrees': () => cut(gaussian(3.2), 1.55, 20),
  'LP01 of a 4.1 um core, V = 2.2 at 1.31 um, cut at 20 degrees': () =>
    cut((angle) => lp01Intensity(lp01, ((2 * Math.PI * 4.1) / 1.31) * Math.sin(angle)), 1.31, 20),
  '90 correlated readings whose interval is widened by a factor of 3, in independent readings': () =>
    wideningOf(3, 1, 90, ['drift'])?.effectiveReadings ?? Number.NaN,
  'major width for <x^2> 1.9375, <y^2> 1.3125, <xy> 0.541266 um^2': () => ellipse.major,
  'azimuth of the same': () => ellipse.azimuthRad / DEGREE,
  'Petermann I over II at V = 2.0': () => petermann1Over2(2),
  'Petermann I over II at V = 1.6': () => petermann1Over2(1.6),
  'combined uncertainty of 0.1, 0.05, 0.03 and 0.02 um': () =>
    combine([0.1, 0.05, 0.03, 0.02].map((u) => typeB('part', u))).combinedUm,
  't for 95.45 % at 10 degrees of freedom': () => studentT(0.9545, 10),
  'modified z of 9 among 1, 3, 5, 7, 9': () =>
    repeatedMeasurements([1, 3, 5, 7, 9]).modifiedZ[4] ?? Number.NaN,
  'facet loss of 3.1 dB at 0.5 cm and 4.3 dB at 2 cm': () => series().facetLossDb.value,
  'propagation loss of the same': () => series().propagationDbPerCm.value,
  'offset that explains 1 dB at W = 3.2 um, known to 0.01 dB, tolerance 2 um': () =>
    Math.abs(
      explainDifference({
        predict: (v) => [(20 / Math.LN10) * ((v.offsetUm ?? 0) / 3.2) ** 2],
        measuredDb: [1],
        standardDb: [0.01],
        causes: [{ id: 'offsetUm', nominal: 0, standard: 2 }],
      }).single[0]?.value ?? Number.NaN,
    ),
}

const examples = [...text.matchAll(/^Worked: (.+) = (-?\d+(?:\.(\d+))?)(?: [^ =]+)?$/gm)].map((match) => ({
  name: match[1] ?? '',
  shown: Number(match[2]),
  digits: (match[3] ?? '').length,
}))

describe('the worked examples of docs/measurements.md are what the bench computes', () => {
  test.each(examples)('$name = $shown', ({ name, shown, digits }) => {
    const compute = WORKED[name]
    if (compute === undefined) expect.fail(`no example "${name}"`)
    expect(Math.abs(compute() - shown)).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9))
  })
})

test('every computed example is in the text, once', () => {
  expect(examples.map((example) => example.name).sort()).toEqual(Object.keys(WORKED).sort())
})

describe('every section', () => {
  const sections = text.split(/^## /m).slice(1)

  test.each(sections.map((section) => [section.slice(0, section.indexOf('\n')), section] as const))(
    '%s has its source, code, validity, limiting cases and a worked example',
    (_title, section) => {
      for (const part of ['Source', 'Code', 'Validity', 'Limiting case', 'Worked']) {
        expect(section, part).toMatch(new RegExp(`(?:^|[\\s(])${part}s?[:,. ]`))
      }
    },
  )
})

test('the files that the text names exist', () => {
  const below = readdirSync(new URL('../../src/measure', import.meta.url), {
    recursive: true,
    encoding: 'utf8',
  })
  const names = [...text.matchAll(/`(?:src\/measure\/)?((?:\w+\/)?\w+\.ts)`/g)].map((match) => match[1] ?? '')
  expect(names.length).toBeGreaterThan(5)
  for (const name of names) {
    expect(
      below.some((path) => path === name || path.endsWith(`/${name}`)),
      name,
    ).toBe(true)
  }
})
