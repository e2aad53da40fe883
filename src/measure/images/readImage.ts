// Image files of beam cameras become pixels: PGM by our own reader, PNG and TIFF by their decoders.

import { decode as decodePng } from 'fast-png'
import { InputError } from '../../numerics/inputError'
import { greyOf } from './greyPixels'
import { type BenchImage, type PlainImage, pixelScaleUm, saturatedPixels, WHY_NO_JPEG } from './image'
import { checkPngHeader } from './imageSize'
import { readPgm } from './pgm'
import { readTiff } from './tiffImage'

/**
 * Reads PGM (P2, P5; 8 and 16 bit), PNG (1 to 16 bit, grey, colour or palette) and TIFF (8 and 16 bit, 32 and 64 bit
 * floating point; not compressed, LZW, deflate, PackBits). Colour becomes the mean of its channels, alpha is dropped, both said in `notes`. InputError for anything
 * else, and for files that are cut short. `name` is used in messages only.
 */
export function readImage(bytes: Uint8Array, name = 'image file'): BenchImage {
  const image = decodeBy(bytes, name)
  const pixelUm = pixelScaleUm(image.notes)
  return {
    ...image,
    ...(pixelUm !== undefined && pixelUm > 0 && Number.isFinite(pixelUm) ? { pixelUm } : {}),
    saturatedCount: saturatedPixels(image.pixels, image.fullScale),
  }
}

function decodeBy(bytes: Uint8Array, name: string): PlainImage {
  const starts = (...codes: number[]) => codes.every((code, i) => bytes[i] === code)
  if (starts(0x50, 0x35) || starts(0x50, 0x32)) return fromPgm(bytes)
  if (starts(0x89, 0x50, 0x4e, 0x47)) return guarded(name, 'PNG', () => fromPng(bytes, name))
  if (starts(0x49, 0x49, 0x2a, 0) || starts(0x4d, 0x4d, 0, 0x2a))
    return guarded(name, 'TIFF', () => readTiff(bytes, name))
  if (starts(0x49, 0x49, 0x2b, 0) || starts(0x4d, 0x4d, 0, 0x2b))
    throw new InputError(name, 'a BigTIFF', 'a plain TIFF, PNG or PGM')
  if (starts(0xff, 0xd8)) {
    throw new InputError(name, 'a JPEG', `PNG, TIFF or PGM: ${WHY_NO_JPEG}`)
  }
  throw new InputError(name, 'of an unknown type', 'PNG, TIFF or PGM')
}

function guarded(name: string, kind: string, decode: () => PlainImage): PlainImage {
  try {
    return decode()
  } catch (error) {
    if (error instanceof InputError) throw error
    const reason = error instanceof Error ? error.message : String(error)
    throw new InputError(
      name,
      `a ${kind} that cannot be decoded (${reason})`,
      `a complete ${kind} file of a common type`,
    )
  }
}

function fromPgm(bytes: Uint8Array): PlainImage {
  const { pixels, width, height, maxValue, comments } = readPgm(bytes)
  return {
    pixels,
    width,
    height,
    bitDepth: Math.ceil(Math.log2(maxValue + 1)),
    fullScale: maxValue,
    format: 'pgm',
    notes: comments,
  }
}

function fromPng(bytes: Uint8Array, name: string): PlainImage {
  checkPngHeader(bytes, name)
  const png = decodePng(bytes)
  const notes = Object.entries(png.text).map(([key, text]) => `${key}: ${text}`)
  const { width, height } = png
  if (png.palette) {
    const grey = png.palette.map((colour) => ((colour[0] ?? 0) + (colour[1] ?? 0) + (colour[2] ?? 0)) / 3)
    const indices = unpackBits(png.data, width, height, png.depth)
    const pixels = Float64Array.from(indices, (index) => grey[index] as number)
    return {
      pixels,
      width,
      height,
      bitDepth: 8,
      fullScale: 255,
      format: 'png',
      notes: [...notes, 'palette colours averaged'],
    }
  }
  const samples = png.depth < 8 ? unpackBits(png.data, width, height, png.depth) : png.data
  const grey = greyOf(samples, width * height, png.channels)
  return {
    pixels: grey.pixels,
    width,
    height,
    bitDepth: png.depth,
    fullScale: 2 ** png.depth - 1,
    format: 'png',
    notes: [...notes, ...grey.notes],
  }
}

/** PNG rows of 1, 2 and 4 bit samples start at whole bytes. */
function unpackBits(
  data: ArrayLike<number>,
  width: number,
  height: number,
  depth: number,
): ArrayLike<number> {
  if (depth >= 8) return data
  const out = new Uint8Array(width * height)
  const rowBytes = Math.ceil((width * depth) / 8)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const bit = x * depth
      const byte = data[y * rowBytes + (bit >> 3)] as number
      out[y * width + x] = (byte >> (8 - depth - (bit & 7))) & (2 ** depth - 1)
    }
  }
  return out
}
