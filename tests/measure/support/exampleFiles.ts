// The example files of src/panels/measurements/reading/examples, made from exact models with fixed seeds. Invented demo data: the scenario of
// the demo project, a silicon-nitride facet of 3.4 x 2.8 um and a standard fibre at 1653.7 nm.

import { lp01Intensity } from '../../../src/measure/farField/farFieldShape'
import { solveLp01 } from '../../../src/optics/fibre/stepIndexMode'
import { gaussianImage, randomSource } from './synthetic'

export const EXAMPLES = {
  wavelengthUm: 1.6537,
  fibre: { coreRadiusUm: 4.1, na: 0.125 },
  facet: { mfdXUm: 3.4, mfdYUm: 2.8 },
  probeMfdUm: 4,
  image: { majorUm: 3.4, minorUm: 2.8, azimuthDeg: 3 },
  loopback: { facetLossDb: 1.62, propagationDbPerCm: 0.35 },
} as const

const MARK = 'Invented demo data, not a measurement'

export const exampleFiles: Readonly<Record<string, () => string>> = {
  'fibre-far-field.csv': fibreFarField,
  'facet-offset-scan.csv': facetOffsetScan,
  'facet-near-field.pgm': facetNearField,
  'loopback.csv': loopback,
}

function fibreFarField(): string {
  const { normal } = randomSource(16_537)
  const ka = (2 * Math.PI * EXAMPLES.fibre.coreRadiusUm) / EXAMPLES.wavelengthUm
  const mode = solveLp01(ka * EXAMPLES.fibre.na)
  const lines = [
    `# ${MARK}: far field of the standard fibre`,
    '# wavelength_nm: 1653.7',
    'angle_deg,power_uW',
  ]
  for (let step = -60; step <= 60; step++) {
    const angle = ((step / 2 - 0.35) * Math.PI) / 180
    const intensity = lp01Intensity(mode, ka * Math.abs(Math.sin(angle)))
    const power = 42 * (intensity * (1 + 0.003 * normal()) + 1e-5 * Math.abs(1 + 0.3 * normal()))
    lines.push(`${step / 2},${power.toPrecision(5)}`)
  }
  return `${lines.join('\n')}\n`
}

function facetOffsetScan(): string {
  const { normal } = randomSource(3428)
  const along = (x: number, centre: number, mfdUm: number) =>
    150 *
      Math.exp((-2 * (x - centre) ** 2) / ((EXAMPLES.probeMfdUm / 2) ** 2 + (mfdUm / 2) ** 2)) *
      (1 + 0.004 * normal()) +
    0.3
  const lines = [
    `# ${MARK}: bridge fibre moved across the facet`,
    `# probe_MFD_um: ${EXAMPLES.probeMfdUm}`,
    'stage position [um];P along x [uW];P along y [uW]',
  ]
  for (let step = -35; step <= 35; step++) {
    const x = step / 5
    const row = [
      x.toFixed(1),
      along(x, 0.22, EXAMPLES.facet.mfdXUm).toFixed(4),
      along(x, -0.14, EXAMPLES.facet.mfdYUm).toFixed(4),
    ]
    lines.push(row.join(';').replaceAll('.', ','))
  }
  return `${lines.join('\r\n')}\r\n`
}

function facetNearField(): string {
  const { normal } = randomSource(28)
  const image = gaussianImage({
    size: 96,
    pixelUm: 0.12,
    ...EXAMPLES.image,
    peak: 3100,
    background: 64,
    noise: 6,
    fullScale: 4095,
    normal,
  })
  const lines = [
    'P2',
    `# ${MARK}: near field of the facet`,
    '# pixel pitch 0.12 um at the object',
    '96 96',
    '4095',
  ]
  for (let row = 0; row < 96; row++) lines.push(image.pixels.subarray(row * 96, (row + 1) * 96).join(' '))
  return `${lines.join('\n')}\n`
}

function loopback(): string {
  const { normal } = randomSource(12)
  const { facetLossDb, propagationDbPerCm } = EXAMPLES.loopback
  const lines = [
    `# ${MARK}: fibre, guide, fibre at four lengths, three guides each`,
    'length [mm],insertion loss [dB]',
  ]
  for (const lengthMm of [6, 12, 24, 48]) {
    for (let guide = 0; guide < 3; guide++) {
      const loss = 2 * facetLossDb + (propagationDbPerCm * lengthMm) / 10 + 0.06 * normal()
      lines.push(`${lengthMm},${loss.toFixed(2)}`)
    }
  }
  return `${lines.join('\n')}\n`
}
