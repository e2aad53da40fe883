import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { PALETTES, type Tone } from '../../src/figures/render/palette'

const css = readFileSync('src/ui/css/tokens.css', 'utf8')
const tokens = new Map(
  [...css.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(
    ([, name = '', light = '', dark = '']) => [name, { light, dark }] as const,
  ),
)

/** What pages and figures draw with the same colour. */
const SHARED: readonly Tone[] = ['paper', 'ink', 'quiet', 'rule', 'accent', 'bad', 'glass']

describe('tokens of the page', () => {
  test.each(SHARED)('%s is the palette of the figures, in both themes', (tone) => {
    expect(tokens.get(tone)).toEqual({ light: PALETTES.light[tone], dark: PALETTES.dark[tone] })
  })
})
