import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demoProject, parseProject, projectText } from '../../src/model/index'
import { designOf, keepRevision } from '../../src/model/project/revisions'
import { finish } from '../../src/numerics/steps'
import { canonicalSteps, projectChecksum } from '../../src/report/canonical'
import { sha256Steps } from '../../src/report/sha256'

const sha256Hex = (text: string) => finish(sha256Steps(text))

describe('SHA-256', () => {
  // FIPS 180-4, examples of the standard's companion document (from memory): "abc", the empty message, 448 bits.
  test.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('of "%s" is the published one', (text, digest) => {
    expect(sha256Hex(text)).toBe(digest)
  })

  test('is what the crypto library of Node gives, for any text and about every block boundary', () => {
    const theirs = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex')
    for (let length = 0; length < 200; length++) {
      const text = 'x'.repeat(length)
      expect(sha256Hex(text)).toBe(theirs(text))
    }
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 300 }),
        (text) => sha256Hex(text) === theirs(text),
      ),
    )
  })
})

describe('the checksum of a project', () => {
  test('does not depend on the order of fields or the layout of the file', () => {
    const project = demoProject()
    const shuffled = Object.fromEntries(Object.entries(project).toReversed())
    expect(projectChecksum(parseProject(shuffled))).toBe(projectChecksum(project))
    expect(projectChecksum(parseProject(JSON.parse(projectText(project))))).toBe(projectChecksum(project))
    expect(JSON.parse(finish(canonicalSteps(project)))).toEqual(project)
  })

  test('changes with every number, and not by keeping a revision', () => {
    const project = demoProject()
    const before = projectChecksum(project)
    keepRevision(project, designOf(project), { name: 'A', date: '2026-11-25', remark: '' })
    expect(projectChecksum(project)).toBe(before)
    project.facets[0]!.mfdX.value += 1e-9
    expect(projectChecksum(project)).not.toBe(before)
  })
})
