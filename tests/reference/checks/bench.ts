import { readFileSync } from 'node:fs'
import { farFieldMfd, offsetScanMfd, readImage, readScan, secondMomentWidths } from '../../../src/measure'
import { petermann2MfdUm, petermannIntegrals } from '../../../src/measure/farField/petermannIntegral'
import { petermann1Over2 } from '../../../src/measure/farField/petermannRatio'
import { combine, typeB } from '../../../src/measure/fit/uncertaintyBudget'
import { principalWidths } from '../../../src/measure/nearField/imageMoments'
import { KNIFE_EDGE_FACTORS } from '../../../src/measure/nearField/knifeEdge'
import { leastSquares } from '../../../src/numerics/linear/leastSquares'
import { studentT } from '../../../src/numerics/statistics'
import { type CheckRow, recordedRow } from '../checkRow'
import { GLOGE, NUMPY, SCIPY } from '../sources'

const DEGREE = Math.PI / 180
const DATA = new URL('../data/', import.meta.url)
const bytesOf = (name: string) => readFileSync(new URL(`bench/${name}`, DATA))

/** The standard's integral over a far field that is Gaussian in sin θ, cut off at an angle. */
const cutGaussian = (mfdUm: number, wavelengthUm: number, limitDeg: number) => () =>
  petermann2MfdUm(
    petermannIntegrals(
      (angle) => Math.exp(-2 * ((Math.PI * mfdUm * Math.sin(angle)) / (2 * wavelengthUm)) ** 2),
      limitDeg * DEGREE,
    ),
    wavelengthUm,
  )

const SCAN_SOURCE = `near-field Petermann II of the exact LP01 mode (${GLOGE}) by ${SCIPY}, tests/reference/data/bench`

const farFieldFile = (name: string, wavelengthUm: number) => () => {
  const scan = readScan(bytesOf(name).toString('utf8'))
  const [angle, power] = scan.columns
  if (!angle || !power) throw new Error(`${name} has lost its columns`)
  return farFieldMfd({ angleRad: angle.values, power: power.values, wavelengthUm }).petermann2MfdUm
}

const offsetFile = (name: string, column: number, probeMfdUm: number) => () => {
  const scan = readScan(bytesOf(name).toString('utf8'))
  const [position] = scan.columns
  const power = scan.columns[column]
  if (!position || !power) throw new Error(`${name} has lost its columns`)
  return offsetScanMfd({ positionUm: position.values, power: power.values, probeMfdUm }).mfdUm
}

const imageFile = () => {
  const image = readImage(bytesOf('near-field-1.pgm'))
  return secondMomentWidths({ ...image, pixelUm: image.pixelUm ?? Number.NaN })
}

const fileRow = (
  id: string,
  quantity: string,
  input: string,
  expected: number,
  unit: string,
  tolerance: number,
  ours: () => number,
): CheckRow => ({
  id,
  quantity,
  source: input.startsWith('far-field')
    ? SCAN_SOURCE
    : `Gaussian modes made with ${NUMPY}, tests/reference/data/bench`,
  input,
  expected,
  unit,
  tolerance,
  ours,
})

const decay = (
  difficulty: string,
  name: string,
  index: number,
  expected: number,
  model: (b: Float64Array, x: number) => number,
): CheckRow => {
  const problem = (JSON.parse(readFileSync(new URL('nist-strd/data.json', DATA), 'utf8')) as Nist[]).find(
    (p) => p.name === name,
  )
  return {
    id: `nist-${name}`,
    quantity: `${name} (${difficulty} difficulty), parameter ${index + 1}`,
    source:
      'NIST Statistical Reference Datasets (2003), certified value (value from memory; the data give the certified residual sum of squares)',
    published: true,
    input: 'the starting values farther from the solution',
    expected,
    unit: '1',
    tolerance: Number((Math.abs(expected) * 1e-6).toPrecision(2)),
    ours: () => {
      if (!problem) throw new Error(`nist-strd has no ${name}`)
      const fit = leastSquares({
        start: problem.starts[0] ?? [],
        residualCount: problem.y.length,
        residuals: (b, out) => {
          problem.y.forEach((y, i) => {
            out[i] = model(b, problem.x[i] ?? 0) - y
          })
        },
      })
      return fit.parameters[index] ?? Number.NaN
    },
  }
}

interface Nist {
  readonly name: string
  readonly starts: readonly number[][]
  readonly x: readonly number[]
  readonly y: readonly number[]
}

const tTable = (degreesOfFreedom: number, expected: number): CheckRow => ({
  id: `student-t-${degreesOfFreedom}`,
  quantity: 'Student t for 95.45 % coverage',
  source: 'JCGM 100:2008, table G.2 (value from memory)',
  published: true,
  input: `degrees of freedom ${degreesOfFreedom}`,
  expected,
  unit: '1',
  tolerance: 0.0051,
  ours: () => studentT(0.9545, degreesOfFreedom),
})

const ellipse = () => principalWidths(1.9375, 1.3125, 0.541265877365274)

export const benchChecks: readonly CheckRow[] = [
  recordedRow('ff-gauss-10.4', cutGaussian(10.4, 1.55, 90)),
  recordedRow('ff-gauss-9.2', cutGaussian(9.2, 1.31, 90), {
    quantity: 'MFD by far-field integral of a Gaussian far field at 1310 nm, scan to 90 deg',
  }),
  recordedRow('ff-trunc-10.4-20', cutGaussian(10.4, 1.55, 20)),
  recordedRow('ff-trunc-10.4-15', cutGaussian(10.4, 1.55, 15)),
  recordedRow('ff-trunc-3.2-90', cutGaussian(3.2, 1.55, 90)),
  recordedRow('ff-trunc-3.2-30', cutGaussian(3.2, 1.55, 30)),
  fileRow(
    'scan-far-1',
    'Petermann II of a far-field scan',
    'far-field-1.csv, no noise',
    10.202457935730276,
    'um',
    0.0306,
    farFieldFile('far-field-1.csv', 1.55),
  ),
  fileRow(
    'scan-far-2',
    'Petermann II of a far-field scan',
    'far-field-2.csv, noise and floor',
    4.692177947130062,
    'um',
    0.0469,
    farFieldFile('far-field-2.csv', 1.55),
  ),
  fileRow(
    'scan-far-3',
    'Petermann II of a far-field scan',
    'far-field-3.csv, unit inferred',
    8.971008522042005,
    'um',
    0.0269,
    farFieldFile('far-field-3.csv', 1.31),
  ),
  fileRow(
    'scan-offset-1x',
    'MFD of an offset scan',
    'offset-scan-1.csv along x, noise',
    3.2,
    'um',
    0.016,
    offsetFile('offset-scan-1.csv', 1, 10.4),
  ),
  fileRow(
    'scan-offset-1y',
    'MFD of an offset scan',
    'offset-scan-1.csv along y, noise',
    2.7,
    'um',
    0.0135,
    offsetFile('offset-scan-1.csv', 2, 10.4),
  ),
  fileRow(
    'scan-offset-2x',
    'MFD of an offset scan',
    'offset-scan-2.csv along x, no noise',
    4.4,
    'um',
    1e-5,
    offsetFile('offset-scan-2.csv', 1, 6),
  ),
  fileRow(
    'image-major',
    'major width by second moments',
    'near-field-1.pgm',
    9.6,
    'um',
    0.048,
    () => imageFile().majorUm,
  ),
  fileRow(
    'image-minor',
    'minor width by second moments',
    'near-field-1.pgm',
    6.2,
    'um',
    0.031,
    () => imageFile().minorUm,
  ),
  fileRow(
    'image-azimuth',
    'azimuth by second moments',
    'near-field-1.pgm',
    17,
    'deg',
    0.5,
    () => imageFile().azimuthRad / DEGREE,
  ),
  recordedRow('iso-dx', () => ellipse().major),
  recordedRow('ke-1090', () => KNIFE_EDGE_FACTORS['10-90']),
  recordedRow('ke-1684', () => KNIFE_EDGE_FACTORS['16-84']),
  recordedRow('ke-2080', () => KNIFE_EDGE_FACTORS['20-80']),
  {
    id: 'petermann-ratio-1.6',
    quantity: 'Petermann I over Petermann II',
    source: `exact LP01 (${GLOGE}) by ${SCIPY}: 1.716394 / 1.558721`,
    input: 'V = 1.6',
    expected: 1.716394 / 1.558721,
    unit: '1',
    tolerance: 2e-6,
    ours: () => petermann1Over2(1.6),
  },
  recordedRow('gum-rss', () => combine([0.1, 0.05, 0.03, 0.02].map((u) => typeB('part', u))).combinedUm, {
    unit: 'um',
  }),
  tTable(1, 13.97),
  tTable(4, 2.87),
  tTable(10, 2.28),
  decay('lower', 'Misra1a', 0, 2.3894212918e2, (b, x) => (b[0] ?? 0) * (1 - Math.exp(-(b[1] ?? 0) * x))),
  decay('lower', 'DanWood', 1, 3.8604055871, (b, x) => (b[0] ?? 0) * x ** (b[1] ?? 0)),
  decay(
    'average',
    'Misra1d',
    0,
    4.3736970754e2,
    (b, x) => ((b[0] ?? 0) * (b[1] ?? 0) * x) / (1 + (b[1] ?? 0) * x),
  ),
]
