import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { farFieldMfd, offsetScanMfd, readImage, readScan, secondMomentWidths } from '../../src/measure'
import { loopbackLoss } from '../../src/measure/loopback/loopback'
import { stepIndexMode } from '../../src/optics/fibre/stepIndexMode'
import { EXAMPLES, exampleFiles } from './support/exampleFiles'

const folder = '../../src/panels/measurements/reading/examples'
const textOf = (name: string) => readFileSync(new URL(`${folder}/${name}`, import.meta.url), 'utf8')

describe('the example files in src/panels/measurements/reading/examples', () => {
  // After a change of the models: npx vitest run --project unit tests/measure/examples.test.ts -u
  test.each(Object.entries(exampleFiles))(
    '%s is what its seeded model makes, and is marked as invented',
    async (name, make) => {
      const text = make()
      expect(text).toContain('Invented demo data')
      await expect(text).toMatchFileSnapshot(`${folder}/${name}`)
    },
  )

  test("the far-field scan gives the fibre's Petermann II diameter, with the wavelength from its comment", () => {
    const scan = readScan(textOf('fibre-far-field.csv'))
    expect([scan.kind, scan.doubts, scan.refusedLines]).toEqual(['far-field', [], []])
    const result = farFieldMfd({
      angleRad: scan.columns[0]!.values,
      power: scan.columns[1]!.values,
      wavelengthUm: scan.metadata.wavelengthUm!,
    })
    const truth = stepIndexMode({ ...EXAMPLES.fibre, wavelengthUm: EXAMPLES.wavelengthUm }).petermann2MfdUm
    expect(Math.abs(result.petermann2MfdUm - truth)).toBeLessThan(result.uncertaintyUm)
    expect(result.petermann2MfdUm / truth).toBeCloseTo(1, 2)
  })

  test("the offset scan gives the facet's 3.4 x 2.8 um with the probe from its comment", () => {
    const scan = readScan(textOf('facet-offset-scan.csv'))
    expect([scan.kind, scan.decimalMark, scan.doubts]).toEqual(['offset', ',', []])
    for (const [column, mfd] of [
      [1, 3.4],
      [2, 2.8],
    ] as const) {
      const result = offsetScanMfd({
        positionUm: scan.columns[0]!.values,
        power: scan.columns[column]!.values,
        probeMfdUm: scan.metadata.probeMfdUm!,
      })
      expect(Math.abs(result.mfdUm - mfd)).toBeLessThan(1.5 * result.uncertaintyUm)
    }
  })

  test("the image gives the facet's widths with the pixel pitch from its comment", () => {
    const image = readImage(readFileSync(new URL(`${folder}/facet-near-field.pgm`, import.meta.url)))
    const result = secondMomentWidths({ ...image, pixelUm: image.pixelUm! })
    expect(Math.abs(result.majorUm - 3.4)).toBeLessThan(1.5 * result.majorUncertaintyUm)
    expect(Math.abs(result.minorUm - 2.8)).toBeLessThan(1.5 * result.minorUncertaintyUm)
    expect(result.warnings).toEqual([])
  })

  test('the loopback series gives facet and propagation loss within their intervals', () => {
    const scan = readScan(textOf('loopback.csv'))
    expect([scan.kind, scan.doubts]).toEqual(['loopback', []])
    const points = [...scan.columns[0]!.values].map((lengthUm, i) => ({
      lengthCm: lengthUm / 1e4,
      lossDb: scan.columns[1]!.values[i]!,
    }))
    const result = loopbackLoss({ points })
    expect(Math.abs(result.facetLossDb.value - EXAMPLES.loopback.facetLossDb)).toBeLessThan(
      result.facetLossDb.plusMinus!,
    )
    expect(Math.abs(result.propagationDbPerCm.value - EXAMPLES.loopback.propagationDbPerCm)).toBeLessThan(
      result.propagationDbPerCm.plusMinus!,
    )
  })
})
