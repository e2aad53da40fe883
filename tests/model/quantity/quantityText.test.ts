import { describe, expect, test } from 'vitest'
import { RULES } from '../../../src/model/quantity/quantityRules'
import { readPlainQuantityText, readQuantityText } from '../../../src/model/quantity/quantityText'

const value = async (text: string, rule = RULES.gap) => {
  const read = await readQuantityText(text, rule)
  if (!read.ok) throw new Error(read.issues[0]?.message)
  return read.value
}

const complaint = async (text: string, rule = RULES.gap) => {
  const read = await readQuantityText(text, rule)
  return read.ok ? '' : (read.issues[0]?.message ?? '')
}

describe('text in a number field', () => {
  test('reads numbers with and without units, with either decimal mark and either minus', async () => {
    expect(await value('3.2')).toEqual({ value: 3.2, unit: 'um' })
    expect(await value('3,2 µm')).toEqual({ value: 3.2, unit: 'um' })
    expect(await value('250 nm')).toEqual({ value: 250, unit: 'nm' })
    expect(await value('−0.35°', RULES.tilt as never)).toEqual({ value: -0.35, unit: 'deg' })
    expect(await value('6 mrad', RULES.tilt as never)).toEqual({ value: 6, unit: 'mrad' })
    expect(await value('0.1 dB', RULES.loss as never)).toEqual({ value: 0.1, unit: 'dB' })
  })

  test('computes small expressions and keeps the entry', async () => {
    const read = await value('10.4/2 um')
    expect(read.value).toBeCloseTo(5.2, 12)
    expect(read).toMatchObject({ unit: 'um', typed: '10.4/2 um' })
    expect((await value('2 * (1 mm + 500 um)')).value).toBeCloseTo(3000, 9)
    expect((await value('0.1+0.05 dB', RULES.loss as never)).value).toBeCloseTo(0.15, 12)
  })

  test('asks about a comma that could mean thousands, and takes one that can only be a decimal mark', async () => {
    expect(await complaint('1,000')).toBe('gap is "1,000", which could be 1.000 or 1000; enter one of these')
    expect((await value('0,125')).value).toBe(0.125)
    expect((await value('1653,7 nm')).value).toBe(1653.7)
  })

  test('names the field, the text and what is allowed when it cannot be used', async () => {
    expect(await complaint('-3')).toBe('gap is −3 µm; must be 0 to 100000 µm')
    expect(await complaint('3 deg')).toContain(
      'gap is "3 deg", but deg is an incompatible unit; allowed: nm, um',
    )
    expect(await complaint('1o.4')).toContain('gap is "1o.4", which is not a number')
    expect(await complaint('')).toBe('gap is empty; enter a number')
    expect(await complaint('1/0 um')).toContain('which is not a number or an expression')
    expect(await complaint('1e400')).toContain('gap is too large to represent; must be 0 to')
  })

  test('refuses an expression whose unit is another, and names the one that is left', async () => {
    expect(await complaint('10 um/2 nm')).toBe(
      'gap is "10 um/2 nm", which has no unit; allowed: nm, um, mm, cm, m',
    )
    expect(await complaint('2 rad * 1 um')).toContain('which has the incompatible unit rad um')
    expect(await complaint('10 um * 2 nm')).toContain('which has the incompatible unit um nm')
    expect(await complaint('1/(2 um)')).toContain('which has the incompatible unit um^-1')
    expect((await value('(10 um/2 um) * 3 um')).value).toBeCloseTo(15, 12)
    expect(await value('10 um/2 um', RULES.na as never).catch((error) => error.message)).toContain(
      'is 5; must be',
    )
    expect((await value('1 um/2 um', RULES.na as never)).value).toBe(0.5)
  })

  test('is measured before it is matched', async () => {
    const hostile = `${'1'.repeat(2000)}\u2028a\u2028a`
    expect(readPlainQuantityText(hostile, RULES.gap)).toMatchObject({ ok: false })
    expect(await complaint(hostile)).toBe('gap has 2004 characters; the limit is 200')
  })

  test('cannot reach functions, assignments or objects', async () => {
    for (const text of [
      'import({}, 1)',
      'a = 3',
      '[1,2]',
      '{a:1}',
      'f(x)=x',
      '"x"',
      'cos.constructor("x")',
    ]) {
      expect(await complaint(text), text).toContain('which is not a number or an expression')
    }
  })

  test('is read at once when it is a plain number, so that a drag needs no loading', () => {
    expect(readPlainQuantityText('4.5 um', RULES.gap)).toEqual({
      ok: true,
      value: { value: 4.5, unit: 'um' },
      warnings: [],
    })
    expect(readPlainQuantityText('9/2', RULES.gap)).toBeNull()
  })
})
