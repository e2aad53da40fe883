import { describe, expect, test } from 'vitest'
import { runArray } from '../../src/analysis/array/runArray'
import { runYield } from '../../src/analysis/index'
import { temperatureSweep } from '../../src/analysis/temperature/temperatureSweep'
import { demoProject } from '../../src/model/index'
import { channelFigure } from '../../src/plots/channelFigure'
import { temperatureFigure } from '../../src/plots/temperatureFigure'
import { yieldFigure } from '../../src/plots/yieldFigure'

const THEME = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'serif' }
const ID = 'high-na-bonded'

type Points = { readonly x: ArrayLike<number>; readonly y: ArrayLike<number> }
const points = (trace: Readonly<Record<string, unknown>> | undefined) => trace as unknown as Points

describe('the yield figure', () => {
  const result = runYield(demoProject(), ID, { samples: 20_000, seed: 1 })
  const figure = yieldFigure(result, THEME)
  test('has bars that, with what lies beyond, are all assemblies, and a curve that rises to their sum', () => {
    const bars = Array.from(points(figure.data[0]).y)
    const beyond = (100 * result.histogram.beyond) / result.samples
    expect(bars.reduce((sum, each) => sum + each, beyond)).toBeCloseTo(100, 9)
    const curve = Array.from(points(figure.data[1]).y)
    expect(curve).toEqual([...curve].sort((a, b) => a - b))
    expect(curve.at(-1)).toBeCloseTo(100 - beyond, 9)
  })
  test('crosses 95 % within one class of the 95th percentile', () => {
    const { x, y } = points(figure.data[1])
    const at = Array.from(y).findIndex((each) => each >= 95)
    expect(Math.abs((x[at] ?? 0) - result.p95Db)).toBeLessThanOrEqual(result.histogram.stepDb)
  })
  test('says the result in a sentence', () => {
    expect(figure.sentence).toContain(
      `${(100 * result.yield).toFixed(2)} % of 20\u202f000 assemblies stay within 2 dB`,
    )
  })
})

test('the channel figure draws every channel with its spread, and says how many blocks pass', () => {
  const [aim] = runArray(demoProject(), ID, { samples: 128 }).aims
  if (aim === undefined) throw new Error('no aim')
  const figure = channelFigure(aim, 2, THEME)
  expect(points(figure.data[0]).x.length).toBe(12)
  expect(figure.table.rows).toHaveLength(12)
  for (const [i, channel] of aim.channels.entries()) {
    expect(points(figure.data[0]).y[i]).toBe(channel.p50Db)
    expect(channel.p5Db).toBeLessThanOrEqual(channel.p50Db)
    expect(channel.p95Db).toBeGreaterThanOrEqual(channel.p50Db)
  }
  expect(figure.sentence).toContain(`${(100 * aim.allChannelsYield).toFixed(1)} % of blocks`)
})

test('the temperature figure draws the nominal curve between the edges of its band', () => {
  const result = temperatureSweep(demoProject(), ID)
  if (!result.ok) throw new Error('not computed')
  const figure = temperatureFigure(result.value, 2, THEME)
  expect(Array.from(points(figure.data[2]).y)).toEqual([...result.value.lossesDb])
  expect(figure.sentence).toContain('Aligned at 23 °C')
  expect(figure.table.rows).toHaveLength(21)
})
