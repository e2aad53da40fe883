import { z } from 'zod'

// The library would write code for every schema and run it, which the page's security policy forbids, and says so when it tries.
z.config({ jitless: true })

/**
 * An object schema that keeps fields it does not know, so that a file written by a newer program
 * survives a round trip, while the inferred type stays closed, so that a misspelt field is a type error.
 */
export function open<Shape extends z.ZodRawShape>(shape: Shape): z.ZodObject<Shape> {
  return z.looseObject(shape) as unknown as z.ZodObject<Shape>
}
