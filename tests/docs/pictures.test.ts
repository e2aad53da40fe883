// The figures of docs/physics.md, computed by the core and drawn by the renderer of the app. A figure that is not what the core
// gives now fails; `npx vitest run --project unit tests/docs/pictures.test.ts -u` writes it anew.

import { expect, test } from 'vitest'
import { along } from '../../src/figures/axes'
import { type Chart, chart, type Series } from '../../src/figures/chart'
import type { Multiples, Picture } from '../../src/figures/figure'
import { PALETTES, type Tone } from '../../src/figures/render/palette'
import { described, svgFile, svgPicture } from '../../src/figures/render/picture'
import { equivalentCore, jointEfficiency, lossDb, turnedModeDb } from '../../src/optics/index'
import { equalModes } from '../support/equalModes'

const DEG = Math.PI / 180

const svg = (picture: Picture, sentence: string) =>
  svgFile(described(svgPicture(picture, { palette: PALETTES.paper }), sentence), '')

/** A curve that ends where it leaves the frame. */
const line = (
  name: string,
  x: Float64Array,
  y: Float64Array,
  mostDb: number,
  tone: Tone,
  dash: 'solid' | 'dash',
): Series => ({
  kind: 'line',
  name,
  x,
  y: Array.from(y, (db) => (db > mostDb ? null : db)),
  tone,
  dash,
})

const steps = (to: number, count = 81) =>
  Float64Array.from({ length: count }, (_, i) => (i * to) / (count - 1))

test('loss against offset, tilt and gap', async () => {
  const axes = [
    ['Offset', 'µm', 3, (x: number) => ({ offsetXUm: x })],
    ['Tilt', '°', 6, (x: number) => ({ tiltXRad: x * DEG })],
    ['Gap', 'µm', 60, (x: number) => ({ gapUm: x })],
  ] as const
  const charts = axes.map(([name, unit, to, move]): { readonly name: string; readonly chart: Chart } => {
    const x = steps(to)
    const losses = (mfdUm: number) =>
      Float64Array.from(x, (at) => lossDb(jointEfficiency({ ...equalModes(mfdUm), ...move(at) })))
    return {
      name,
      chart: chart(along(name, unit, x, 1), { title: 'Loss', unit: 'dB', from: 0, to: 3, digits: 1 }, [
        line('10.4 µm', x, losses(10.4), 3, 'accent', 'solid'),
        line('3.2 µm', x, losses(3.2), 3, 'ink', 'dash'),
      ]),
    }
  })
  const picture: Multiples = { kind: 'multiples', columns: 3, charts }
  const sentence =
    'Loss of two equal modes at 1550 nm in air, up to 3 dB: a mode of 10.4 µm (solid) tolerates offset and gap, one of 3.2 µm (dashed) tolerates tilt.'
  await expect(svg(picture, sentence)).toMatchFileSnapshot('../../docs/pictures/joint-losses.svg')
})

test('return loss of an angled fibre, by its exact mode and as a Gaussian', async () => {
  const [wavelengthUm, guideIndex, mfdUm] = [1.55, 1.444, 10.4]
  const x = steps(12, 121)
  const flatDb = -20 * Math.log10((guideIndex - 1) / (guideIndex + 1))
  const core = equivalentCore(mfdUm, mfdUm, wavelengthUm)
  const exact = Float64Array.from(
    x,
    (at) => flatDb + turnedModeDb({ wavelengthUm, guideIndex, core, angleXRad: at * DEG, angleYRad: 0 }),
  )
  const gaussian = Float64Array.from(
    x,
    (at) => flatDb + 10 * Math.LOG10E * ((Math.PI * guideIndex * mfdUm * at * DEG) / wavelengthUm) ** 2,
  )
  const picture = chart(
    along('Face angle', '°', x, 1),
    { title: 'Return loss', unit: 'dB', from: 0, to: 100, digits: 1 },
    [
      { kind: 'rule', axis: 'y', at: 65, label: 'limit', dash: 'dot' },
      line('exact', x, exact, 100, 'accent', 'solid'),
      line('Gaussian', x, gaussian, 100, 'ink', 'dash'),
    ],
  )
  const sentence =
    'Return loss of a standard fibre against air: at 8° the exact mode gives about 60 dB, a Gaussian of the same diameter 93 dB; scatter limits real faces to about 65 dB.'
  await expect(svg(picture, sentence)).toMatchFileSnapshot('../../docs/pictures/return-loss.svg')
})
