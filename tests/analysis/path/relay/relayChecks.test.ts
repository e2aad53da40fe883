// What is said about a relay: each remark on either side of its limit, with numbers worked out next to it.

import { describe, expect, test } from 'vitest'
import { tryEvaluate } from '../../../../src/analysis/index'
import { quantityOf } from '../../../../src/model/quantity/quantity'
import type { RelayElement } from '../../../../src/model/schema/candidate'
import type { LensShapeEntry } from '../../../../src/model/schema/parts'
import type { Project } from '../../../../src/model/schema/project'
import { familiesProject, relayElement } from '../../support/families'
import { um } from '../../support/realRelays'

/** Thin lenses of 1000 and 300 um, each at its focus. */
function relayOf(change: Partial<RelayElement> = {}): Project {
  const focused = { frontGap: um(1000), backGap: um(300), stretch: um(3000) }
  const project = familiesProject(relayElement({ ...focused, ...change }))
  project.requirements.wavelength = quantityOf(1550, 'nm')
  project.requirements.channels = 1
  for (const fibre of project.fibres) fibre.mode = { kind: 'mfd', mfdX: um(10) }
  for (const facet of project.facets) Object.assign(facet, { mfdX: um(3), mfdY: um(3) })
  return project
}

function remarks(project: Project): readonly { readonly message: string; readonly caution?: boolean }[] {
  const result = tryEvaluate(project, 'relay')
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value.validity
}
const remark = (project: Project, part: string) =>
  remarks(project).find(({ message }) => message.includes(part))

function faults(project: Project): readonly string[] {
  const result = tryEvaluate(project, 'relay')
  return result.ok ? [] : result.issues.map(({ path, message }) => `${path.at(-1)}: ${message}`)
}

describe('a relay cannot be computed', () => {
  const shaped = (shape: LensShapeEntry, which: 0 | 1) => {
    const project = relayOf()
    const lens = project.lenses[which]!
    lens.shape = shape
    lens.glass = { kind: 'value', index: quantityOf(1.5, '1') }
    return project
  }
  const biconvex = (front: number, back: number): LensShapeEntry => ({
    kind: 'biconvex',
    frontRadius: um(front),
    backRadius: um(back),
    thickness: um(10),
  })

  test('with a lens that does not converge, on either side', () => {
    expect(faults(shaped(biconvex(-500, -500), 0))[0]).toMatch(
      /^lens1Id: lens 1, .* is not a converging lens: its focal length is −\d+ µm; must be above 0$/,
    )
    expect(faults(shaped(biconvex(-500, -500), 1))[0]).toMatch(/^lens2Id: lens 2, .* not a converging lens/)
  })

  test('with the focus of a lens on the side of its guide inside the glass', () => {
    // A plane face 3 mm behind a sphere of 1 mm in glass of index 1.5: the focus is R n / (n - 1) = 3 mm behind the sphere.
    const rod = (thicknessUm: number): LensShapeEntry => ({
      kind: 'plano-convex',
      radius: um(1000),
      thickness: um(thicknessUm),
    })
    const inside = (thicknessUm: number, which: 0 | 1) =>
      faults(shaped(rod(thicknessUm), which)).filter((each) => each.includes('inside the glass'))
    // In air of index 1.00027 it is 1.6 µm further; (3030 - 3001.6) / 1.5 = 18.9 µm.
    for (const which of [0, 1] as const) {
      const [first] = inside(3030, which)
      expect(first).toMatch(which === 0 ? /^lens1Id: lens 1/ : /^lens2Id: lens 2/)
      expect(Number(/focus ([\d.]+) µm/.exec(first ?? '')?.[1])).toBeCloseTo(18.9, 1)
      expect(first).toMatch(/focal length (1999|200\d)\.\d µm/)
    }
  })

  test('with a component longer than the collimated section, and can with one as long', () => {
    expect(faults(relayOf({ stretch: quantityOf(2.5, 'mm') }))).toEqual([])
    expect(faults(relayOf({ stretch: quantityOf(2.49, 'mm') }))[0]).toBe(
      'length: Isolator is 2.50 mm long, and the collimated section only 2.49 mm',
    )
    expect(faults(relayOf({ stretch: um(100), device: undefined }))).toEqual([])
  })
})

describe('a relay is doubted', () => {
  test('where an end face is more than two focal distances away', () => {
    const far = (change: Partial<RelayElement>) =>
      remarks(relayOf(change)).flatMap(
        ({ message }) => /^Lens \d.* its focus at [\d.]+ µm/.exec(message)?.[0] ?? [],
      )
    expect(far({ frontGap: um(2000), backGap: um(600) })).toEqual([])
    expect(far({ frontGap: um(2001) })).toEqual([
      expect.stringMatching(/^Lens 1, .* its focus at 1000\.0 µm/),
    ])
    expect(far({ backGap: um(601) })).toEqual([expect.stringMatching(/^Lens 2, .* its focus at 300\.0 µm/)])
  })

  test('where the image lies further from the chip than its Rayleigh range, on either side', () => {
    // Ten to three by focal lengths of 1000 and 300: an image of 3 um, whose Rayleigh range is pi 1.5^2 / 1.55 = 4.6 um.
    const image = (backGapUm: number) =>
      remark(relayOf({ backGap: um(backGapUm) }), 'The image lies')?.message
    expect(image(304)).toBeUndefined()
    expect(image(296)).toBeUndefined()
    expect(image(310)).toMatch(
      /^The image lies 10 µm in front of the chip-side face; its Rayleigh range is 4\.6 µm/,
    )
    expect(image(290)).toMatch(/^The image lies 10 µm behind the chip-side face/)
  })

  test('where its light travels both ways through an isolator', () => {
    const both = (change: Partial<RelayElement>, direction: Project['requirements']['direction']) => {
      const project = relayOf(change)
      project.requirements.direction = direction
      return remark(project, 'an isolator transmits in one only')
    }
    expect(both({}, 'both')).toMatchObject({ caution: true, elementId: 'relay' })
    expect(both({}, 'both')?.message).toContain('it is 30 dB higher')
    expect(both({}, 'fibre to chip')).toBeUndefined()
    const device = { ...relayElement().device!, isolation: undefined }
    expect(both({ device }, 'both')).toBeUndefined()
    expect(both({ device: undefined }, 'both')).toBeUndefined()
  })

  test('where its lenses or its component do not serve the row of channels', () => {
    const project = relayOf()
    project.requirements.channels = 4
    project.requirements.pitch = um(650)
    // Lenses of 600 um fit into the pitch of 650 um; a component of 900 um neither does nor spans 1950 um.
    const faultsOf = (of: Project) =>
      remarks(of).filter(({ message }) => message.includes('clear aperture of'))
    expect(faultsOf(project)).toEqual([
      {
        elementId: 'relay',
        caution: true,
        message: expect.stringMatching(/^Isolator: its clear aperture of 900 µm/),
      },
    ])
    project.requirements.pitch = um(590)
    expect(faultsOf(project).map(({ message }) => message.split(':')[0])).toEqual([
      'Lens of 1000 um',
      'Lens of 300 um',
      'Isolator',
    ])
  })

  test('where the beam is not parallel over the section: twice its Rayleigh range', () => {
    // Waist behind a lens at its focus: w = f lambda / (pi w0) = 98.68 um; z = f^2 / z0 = 19.74 mm.
    const noted = (stretchMm: number) =>
      remarks(relayOf({ stretch: quantityOf(stretchMm, 'mm') })).find(({ message }) =>
        message.includes('Rayleigh range 20 mm'),
      )
    expect(noted(39.4)?.message).toBe(
      'Collimated beam 197 µm across at its waist, Rayleigh range 20 mm, section 39.4 mm.',
    )
    expect(noted(39.4)?.caution).toBeUndefined()
    expect(noted(39.6)).toMatchObject({ caution: true })
  })

  test('where the smaller mode is steep: 0.3 rad at 3.19 um', () => {
    // atan(1.55 / (pi w)) = 0.3 for w = 1.595 um.
    const steep = (mfdUm: number, which: 'mfdX' | 'mfdY') => {
      const project = relayOf()
      for (const facet of project.facets)
        Object.assign(facet, { mfdX: um(4), mfdY: um(4), [which]: um(mfdUm) })
      return remark(project, 'paraxial limit')?.message
    }
    for (const which of ['mfdX', 'mfdY'] as const) {
      expect(steep(3.2, which)).toBeUndefined()
      expect(steep(3.17, which)).toContain('half-angle of 0.30 rad')
    }
  })

  test('where an aperture clips a thousandth, and more where it clips a tenth', () => {
    // A beam of 97.6 um about its axis and of radius w passes 1 - exp(-2 a^2 / w^2).
    const clipped = (apertureUm: number) => {
      const project = relayOf({ stretch: um(2600) })
      project.lenses[0]!.clearAperture = um(apertureUm)
      return remark(project, `clear aperture of ${apertureUm} µm`)
    }
    const radiusUm = 98.8
    const share = (apertureUm: number) => 100 * Math.exp(-2 * (apertureUm / 2 / radiusUm) ** 2)
    expect(share(370)).toBeLessThan(0.1)
    expect(clipped(370)).toBeUndefined()
    expect(clipped(360)?.message).toContain(
      `clips ${share(360).toFixed(2)} % of the power of the 198 µm beam.`,
    )
    expect(clipped(360)?.caution).toBeUndefined()
    expect(clipped(213)?.message).toContain('beam.')
    expect(clipped(211)).toMatchObject({ caution: true })
    expect(clipped(211)?.message).toContain(`clips ${share(211).toFixed(0)} % of the power`)
    expect(clipped(211)?.message).toContain('edge diffraction is neglected')
  })
})
