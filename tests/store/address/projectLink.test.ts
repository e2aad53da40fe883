import { deflateSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demoProject, emptyProject } from '../../../src/model/index'
import { issueText } from '../../../src/model/issue'
import { isProjectLink } from '../../../src/store/address/pageAddress'
import { LINK_LIMITS, projectFragment, projectOfFragment } from '../../../src/store/address/projectLink'

const linkOf = (text: string) => `#project=1.${deflateSync(text).toString('base64url')}`

async function refusal(fragment: string): Promise<string> {
  const result = await projectOfFragment(fragment)
  return result.ok ? 'opened' : result.issues.map(issueText).join(' ')
}

async function fragmentOf(project: ReturnType<typeof demoProject>): Promise<string> {
  const result = await projectFragment(project)
  if (!result.ok) throw new Error(result.issues.map(issueText).join(' '))
  return result.value
}

describe('a project in a link', () => {
  test('the demo and an empty project come back as they were', async () => {
    for (const project of [demoProject(), emptyProject()]) {
      const fragment = await fragmentOf(project)
      expect(isProjectLink(fragment)).toBe(true)
      expect(fragment.length).toBeLessThan(LINK_LIMITS.characters)
      const result = await projectOfFragment(fragment)
      expect(result.ok && result.value).toEqual(project)
    }
  })

  test('any name comes back, and the link has only characters that programs leave alone', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }), async (name) => {
        const fragment = await fragmentOf({ ...emptyProject(), name })
        expect(fragment).toMatch(/^#project=1\.[\w-]+$/)
        const result = await projectOfFragment(fragment)
        expect(result.ok && result.value.name).toBe(name)
      }),
      { numRuns: 40 },
    )
  })

  test('is unpacked by the same rules that zlib packs by', async () => {
    const result = await projectOfFragment(linkOf(JSON.stringify(demoProject())))
    expect(result.ok && result.value.name).toBe(demoProject().name)
  })

  test('a project beyond the limit is refused with both sizes', async () => {
    const noise = Array.from({ length: 40_000 }, (_, i) => ((Math.sin(i) * 1e9) | 0).toString(36)).join('')
    const result = await projectFragment({ ...emptyProject(), notes: noise } as ReturnType<
      typeof emptyProject
    >)
    expect(result.ok).toBe(false)
    if (!result.ok) {
      expect(result.issues.map(issueText).join(' ')).toMatch(
        /^Link not copied: the project needs \d+\.\d kB; a link holds at most 30\.0 kB\. .*file/,
      )
    }
  })

  test('hostile links are refused in a sentence', async () => {
    const whole = await fragmentOf(demoProject())
    expect(await refusal(whole.slice(0, -40))).toMatch(/^Link not opened: it is incomplete or damaged\./)
    expect(await refusal('#project=1.<script>')).toMatch(/damaged/)
    expect(await refusal('#project=1.')).toMatch(/damaged|JSON/)
    expect(await refusal('#project=2.AAAA')).toMatch(/another release/)
    expect(await refusal(`#project=1.${'A'.repeat(40_000)}`)).toMatch(/it is 40\.0 kB; the limit is 30\.0 kB/)
    expect(await refusal(linkOf('0'.repeat(6_000_000)))).toMatch(/unpacks to more than 4 MB/)
    expect(await refusal(linkOf('{"a":1}'))).toMatch(/format is missing/i)
    expect(await refusal(linkOf('[['))).toMatch(/not JSON/)
    expect(await refusal(linkOf(`{"__proto__":1,${JSON.stringify(demoProject()).slice(1)}`))).toMatch(
      /reserved key __proto__/,
    )
  })

  test('one changed character never opens as another project', async () => {
    const whole = await fragmentOf(emptyProject())
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 12), fc.constantFrom(...'Az09-_'), async (at, letter) => {
        const text = whole.slice(0, 11 + at) + letter + whole.slice(12 + at)
        const result = await projectOfFragment(text)
        // The last character may hold bits that mean nothing.
        if (result.ok) expect(result.value).toEqual(emptyProject())
      }),
      { numRuns: 200 },
    )
  })
})
