// Words in drawings to scale: no edge of the chip runs through them, and none is cut off by the picture.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import type { RelayView } from '../../src/analysis/results/evaluation'
import { jointBodies } from '../../src/figures/drawing/jointBodies'
import { jointDrawings } from '../../src/figures/drawing/jointDrawings'
import { jointPlane } from '../../src/figures/drawing/jointPlane'
import { jointShapes } from '../../src/figures/drawing/jointShapes'
import { relayPlane, relayShapes } from '../../src/figures/drawing/relayShapes'
import type { Markup } from '../../src/figures/render/markup'
import { PALETTES } from '../../src/figures/render/palette'
import { demoProject } from '../../src/model/index'

const flat = (node: Markup | string): readonly Markup[] =>
  typeof node === 'string' ? [] : [node, ...node.children.flatMap(flat)]
const wordsOf = (node: Markup | string): string =>
  typeof node === 'string' ? node : node.children.map(wordsOf).join('|')

const project = demoProject()
const ID = 'lensed-fibre'
const design = project.candidates.find(({ id }) => id === ID)!
const evaluation = evaluateCandidate(project, ID)
const view = evaluation.joints[0]!
const parts = jointBodies(project, design, view)!

test('the keep-out is named in one line right of the facet, or in two where that is short', () => {
  const named = (middleXPx: number, widthPx: number) => {
    const shapes = jointShapes({
      axis: 'y',
      view: { ...view, contact: { gapUm: view.joint.gapUm + 5 } as never },
      plane: jointPlane(view, parts, 'y'),
      parts,
      scale: { pxPerUm: 4, middleXPx, middleYPx: 80, centreZUm: 0 },
      widthPx,
    })
    const found = shapes.flatMap(flat).find(({ attributes }) => attributes.class === 'drawn-label drawn-low')!
    return { words: wordsOf(found), x: Number(found.attributes.x), y: Number(found.attributes.y) }
  }
  const wide = named(200, 600)
  expect(wide.words).toMatch(/^keep-out to [\d.]+ µm, drawn at contact$/)
  const short = named(200, 330)
  expect(short.words).toMatch(/^keep-out to [\d.]+ µm,\|drawn at contact$/)
  for (const { x } of [wide, short]) expect(x).toBeGreaterThan(200)
  expect(short.y).toBeLessThan(wide.y)
})

test('on paper the mode in a lensed fibre is whole, and the surface of the chip is not in its name', () => {
  const [figure] = jointDrawings(project, design, evaluation)
  const drawing = figure!.picture.draw(PALETTES.light)
  const views = flat(drawing).filter(({ attributes }) => attributes['data-view'] !== undefined)
  const heightPx = Number(views[0]!.attributes.height)
  // Side and top view have space between them.
  expect(Number(views[1]!.attributes.y)).toBeGreaterThan(heightPx)
  for (const each of views) {
    const beam = flat(each).find(({ attributes }) => attributes.class === 'drawn-beam')!
    const heights = String(beam.attributes.points)
      .split(' ')
      .map((point) => Number(point.split(',')[1]))
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...heights)).toBeLessThanOrEqual(heightPx)
  }
  const [side] = views
  const name = flat(side!).find((node) => wordsOf(node).startsWith('Silicon-nitride') && node.tag === 'text')!
  const chip = flat(side!).find(({ attributes }) => attributes.class === 'drawn-chip')!
  const chipTop = flat(chip)
    .filter(({ attributes }) => attributes.class === 'drawn-body')
    .flatMap(({ attributes }) => String(attributes.points).split(' '))
    .map((point) => Number(point.split(',')[1]))
    .filter((yPx) => yPx > 0 && yPx < heightPx / 2)
  expect(chipTop.length).toBeGreaterThan(0)
  for (const yPx of chipTop) expect(Math.abs(yPx - (Number(name.attributes.y) - 5))).toBeGreaterThan(8)
})

describe('the name of a component in a relay', () => {
  const found = evaluateCandidate(project, 'relay').relays[0]!
  const relay: RelayView = { ...found, device: { ...found.device!, apertureDiameterUm: 340 } }
  const baseline = (heightPx: number) => {
    const plane = relayPlane(relay, 'y', { widthPx: 3000, heightPx, marginPx: 60, topPx: 32, edgePx: 8 })
    const shapes = relayShapes(relay, plane)
    const name = shapes.find(({ attributes }) => attributes.class === 'drawn-device-name')!
    const edgePx = plane.v(-(relay.device?.apertureDiameterUm ?? 0) / 2)
    return {
      aboveBeam:
        shapes.indexOf(name) > shapes.findIndex(({ attributes }) => attributes.class === 'drawn-beam'),
      y: Number(name.attributes.y),
      edgePx,
    }
  }

  test('is below its edge, or on it where the picture ends there, and never cut off', () => {
    let onEdge = 0
    for (let heightPx = 70; heightPx < 320; heightPx += 3) {
      const { y, edgePx, aboveBeam } = baseline(heightPx)
      expect(aboveBeam).toBe(true)
      expect(y + 4).toBeLessThanOrEqual(heightPx)
      if (edgePx + 8 > heightPx) continue
      expect([4, 13]).toContain(Math.round(y - edgePx))
      if (Math.round(y - edgePx) === 4) onEdge += 1
    }
    expect(onEdge).toBeGreaterThan(0)
  })
})
