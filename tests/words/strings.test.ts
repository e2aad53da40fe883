// The words of the screens, messages, papers and the command: no coined or translated phrase where the trade has a word of its own.

import { describe, expect, test } from 'vitest'
import { type SourceString, sourceStrings } from '../support/sourceStrings'

const strings = sourceStrings('src')

/** The phrase, what to write instead, and texts that may hold it. */
const REFUSED: readonly [name: string, tic: RegExp, instead: string, except?: RegExp][] = [
  ['ASCII micrometres', /(?:\d|\{\}) ?um\b|, um\b/, 'µm', /10\.4\/2 um|, um$|\.gap="3\.4 um"/],
  ['a space before a degree', /(?:\d|\{\}) °(?!C)/, '8°'],
  ['three dots', /\.\.\./, '…'],
  ['x between dimensions', /(?:\d|\{\}) x (?:\d|\{\})/, '×'],
  ['plus-minus in ASCII', /\+\/-/, '±'],
  ['worst corner', /worst corner/i, 'worst case', /^worst corner$/],
  ['room', /\broom\b/i, 'alignment tolerance', /clean room/],
  ['things that stand', /\bstands?\b/i, 'is shown, is set, is located'],
  [
    'take over, take out, put in, put away, forget',
    /\b(?:take over|take out|put in|put away|forget)\b/i,
    'Apply, Remove, Insert',
  ],
  ['faces that lean', /\blean(?:s|ing)?\b/i, 'angled'],
  ['fringe, crest, trough', /\b(?:fringes?|crests?|troughs?)\b/i, 'ripple period, maximum, minimum'],
  ['candidate', /\bcandidates?\b/i, 'design', /--candidate|^candidate|candidates\[/],
  ['chain for path', /\b(?:the|this|a) chain\b/i, 'path'],
  ['typed', /\btyped\b/i, 'entered'],
  ['filling', /\bfillings?\b/i, 'gap medium'],
  ['dense for index', /\bdenser?\b/i, 'higher-index'],
  [
    'near face, far face',
    /\b(?:near|far) face\b/i,
    'fibre-side face, chip-side face',
    /^(?:Near|Far) face angle$/,
  ],
  ['a for per', / dB an? (?:line|unit|face|channel|block)\b/, 'per'],
  ['for want of', /\bfor want of\b/i, 'no … given'],
  ['the very', /\bthe very\b/i, 'the same'],
  [
    'is no',
    /\bis no (?!mode|joint|signal|command|longer|beam|interval|coupl|result|need|part)\w/,
    'is not a',
  ],
  ['known by', /\bknown by\b/i, 'defined by'],
  ['told, tells', /\b(?:told|tells?)\b/i, 'reported, shows, given'],
  ['somebody, nobody', /\b(?:some|no|any)body\b/i, 'the passive, or who it is'],
  ['by itself', /\bby itself\b/i, 'separately, individually'],
  ['plays no part', /\bplays? no part\b/i, 'is ignored'],
  ['would fit', /\bwould fit\b/i, 'possible remedies'],
  ['used up', /\bused up\b/i, 'at their limits'],
  ['carried', /\bcarried\b/i, 'fixed value', /^carried$/],
  ['overtype', /\bovertype/i, 'overwrite'],
  ['the program', /\bthe program\b/i, 'the app'],
  ['dirt', /\bdirt\b/i, 'contamination'],
  ['beside each other', /\bbeside each other\b/i, 'side by side'],
  ['by Gaussians', /\bby (?:fields|Gaussians)\b/i, 'field overlap, for Gaussian modes'],
  ['wish', /\bwish\b/i, 'desirable', /^wish$/],
  ['a distance before gap', /µm gap\b|\bat \{\} gap\b/, 'at a gap of'],
  ['in the way', /\bin the way\b/i, 'no obstruction'],
  ['spoiled', /\bspoil/i, 'handling scrap'],
  ['usual sequence', /\busual sequence\b/i, 'typical sequence'],
  ['kept about', /\bkept about\b/i, 'cropped around'],
  ['for the row', /\bfor the row of\b/i, 'for all channels'],
  ['calculated for computed', /\b(?<!re)calculate[sd]?\b/i, 'computed'],
  ['do not add up', /\bdo(?:es)? not add up\b/i, 'not additive'],
  ['held where they are', /\bwhere (?:they are|it is) at that point\b/i, 'fixed'],
  ['live cells', /\blive cells?\b|\bcell is live\b|\bdesigns, live\b/i, 'recalculated'],
  ['others ignored', /\bothers ignored\b/i, 'lowest single-channel yield'],
  [
    'predicted against measured',
    /\bpredicted against\b|\bmeasured against predicted\b/i,
    'measured vs predicted',
  ],
  ['assemblies against a limit', /\bassemblies against\b/i, 'simulated assemblies, limit'],
  ['at most that many', /\bat most that\b/i, 'the limit'],
  ['over the middle', /\bover(?: the)? middle\b/i, 'above middle'],
  ['index change with temperature', /\bindex change with temperature\b/i, 'thermo-optic coefficient, dn/dT'],
  ['transmission loss of a part', /^transmission loss\b/i, 'insertion loss'],
  ['loss of the joint', /\bloss of the joint\b/i, 'coupling loss, or joint loss with its faces'],
  ['place of the path', /\bplace \{\} of\b/i, 'element'],
  ['ends on a facet', /\bends on\b/i, 'ends at'],
  ['which is', /, which is the end\b/i, 'the end'],
  ['without loss for lossless', /\ba TIFF without loss\b/i, 'lossless compression'],
  ['supplier’s side', /\bsupplier's side\b/i, "producer's risk"],
  ['ASCII microwatts', /(?<!\[)\buW\b(?!\])/, 'µW', /^uW$/],
  ['side-wall', /\bside-wall\b/i, 'sidewall'],
  ['worst case of one condition', /\bworst-case loss over\b/i, 'nominal, worst wavelength or temperature'],
  ['root sum square unexplained', /root sum square/i, 'RSS', /RSS \(root sum square\)|^root sum square$/i],
]

describe('no string of the program', () => {
  test.each(REFUSED)('says %s', (_name, tic, instead, except) => {
    const said = strings.filter(({ text }) => tic.test(text) && !(except?.test(text) ?? false))
    expect(said.map(position), `say instead: ${instead}`).toEqual([])
  })
})

describe('a sentence', () => {
  test('starts with a capital', () => {
    const said = strings.filter(
      ({ text, isPiece }) => !isPiece && /^[a-z][^{}]* .*[a-z)]\.$/.test(text) && !text.includes(': '),
    )
    expect(said.map(position)).toEqual([])
  })
})

test('the walk finds the strings', () => {
  expect(strings.length).toBeGreaterThan(2000)
  // One of a message of several values, one of a component.
  expect(
    strings.some(
      ({ text }) => text === 'in a gel or an adhesive the lens faces lose much of their refractive power',
    ),
  ).toBe(true)
  expect(strings.some(({ text }) => text === 'Remove cross-section')).toBe(true)
})

function position({ file, line, text }: SourceString): string {
  return `${file}:${line} ${text.slice(0, 160)}`
}
