import { describe, expect, test } from 'vitest'
import { centredGrid } from '../../../src/optics/field/fieldGrid'
import { offsetMap } from '../../../src/optics/field/offsetMap'
import { jointEfficiency } from '../../../src/optics/joint/joint'
import { AIR, gaussianField } from './support'

const GRID = centredGrid(128, 64, 0.3, 0.4)

describe('the map over all offsets', () => {
  const emitter = gaussianField(6, 4, GRID, AIR, 12)
  const receiver = gaussianField(5, 5.5, GRID)
  const map = offsetMap(emitter, receiver)

  test('equals the closed form of W. B. Joyce and B. C. DeLoach (1984) at every offset to 1e-9', () => {
    let worst = 0
    for (let iy = 0; iy < map.ny; iy++) {
      for (let ix = 0; ix < map.nx; ix++) {
        const offsetXUm = map.x0Um + ix * map.dxUm
        const offsetYUm = map.y0Um + iy * map.dyUm
        if (Math.abs(offsetXUm) > 8 || Math.abs(offsetYUm) > 5) continue
        const exact = jointEfficiency({
          ...AIR,
          emitterMfdXUm: 6,
          emitterMfdYUm: 4,
          receiverMfdXUm: 5,
          receiverMfdYUm: 5.5,
          offsetXUm,
          offsetYUm,
          gapUm: 0,
          tiltXRad: 0,
          tiltYRad: 0,
          rollRad: 0,
          waistXUm: 12,
          waistYUm: 12,
        })
        worst = Math.max(worst, Math.abs(exact - (map.efficiency[iy * map.nx + ix] ?? 0)))
      }
    }
    expect(worst).toBeLessThan(1e-9)
  })

  test('holds all offsets at which the windows touch, with no offset in the middle', () => {
    expect([map.nx, map.ny]).toEqual([256, 128])
    expect(map.x0Um + 128 * map.dxUm).toBe(0)
    expect(map.y0Um + 64 * map.dyUm).toBe(0)
  })

  test('finds a field again that has been moved', () => {
    const moved = { ...receiver, re: new Float64Array(receiver.re.length) }
    for (let iy = 0; iy < GRID.ny; iy++) {
      for (let ix = 5; ix < GRID.nx; ix++) {
        moved.re[iy * GRID.nx + ix] = receiver.re[iy * GRID.nx + ix - 5] ?? 0
      }
    }
    const found = offsetMap(receiver, moved)
    const best = found.efficiency.indexOf(Math.max(...found.efficiency))
    expect(best % found.nx).toBe(128 + 5)
    expect(Math.floor(best / found.nx)).toBe(64)
    expect(found.efficiency[best]).toBeCloseTo(1, 6)
  })

  test('refuses fields on different grids, by name', () => {
    const other = gaussianField(5, 5, centredGrid(128, 64, 0.3, 0.5))
    expect(() => offsetMap(emitter, other)).toThrow('emitter.dyUm is 0.4; must be that of the receiver, 0.5')
  })
})
