// A figure as a file: vectors, a picture, or the numbers behind it. The typeface goes with it.

import type { Figure } from '../../figures/figure'
import type { Markup } from '../../figures/render/markup'
import { PALETTES } from '../../figures/render/palette'
import { described, figureFileName, svgFile, svgPicture } from '../../figures/render/picture'
import type { FigureBlock } from '../../report/document/blocks'
import { mapPicture } from './mapCanvas'

const PIXELS_PER_UNIT = 2

async function svgOf(drawing: Markup): Promise<string> {
  const { FONT_FACE } = await import('../../figures/render/fontFace')
  return svgFile(drawing, FONT_FACE)
}

/** The drawing as PNG, two pixels for one of its units. */
async function pngOf(drawing: Markup): Promise<Blob> {
  const image = new Image()
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(await svgOf(drawing))}`
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = image.naturalWidth * PIXELS_PER_UNIT
  canvas.height = image.naturalHeight * PIXELS_PER_UNIT
  const context = canvas.getContext('2d')
  if (context === null) throw new Error('This browser could not export the image.')
  context.drawImage(image, 0, 0, canvas.width, canvas.height)
  return new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => (blob === null ? reject(new Error('The image is too large to export.')) : resolve(blob)),
      'image/png',
    )
  })
}

/** What a figure of the page looks like in a file: on white, with the colours of its map. */
export function pictureOf({ picture, sentence }: Figure): Markup {
  const mapHref = picture.kind === 'chart' ? () => mapPicture(picture) : undefined
  const look = { palette: PALETTES.paper, ...(mapHref !== undefined && { mapHref }) }
  return described(svgPicture(picture, look), sentence)
}

export const PICTURE_FORMATS = {
  svg: { mediaType: 'image/svg+xml', make: svgOf },
  png: { mediaType: 'image/png', make: pngOf },
} as const
export type PictureFormat = keyof typeof PICTURE_FORMATS

async function csvOf({ table }: FigureBlock): Promise<string> {
  return (await import('../../report/formats/csv')).tableText(table)
}

interface FigureFile {
  readonly label: string
  /** Returns the message to show. */
  readonly save: (figure: FigureBlock, stem: string) => Promise<string>
}

function file(
  label: string,
  ending: string,
  mediaType: string,
  make: (figure: FigureBlock) => Promise<string | Blob>,
): FigureFile {
  return {
    label,
    save: async (figure, stem) => {
      const [content, { saveFile }] = await Promise.all([make(figure), import('../../store/files/saveFile')])
      return saveFile(content, `${stem}-${figureFileName(figure)}${ending}`, mediaType)
    },
  }
}

export const FIGURE_FILES: readonly FigureFile[] = [
  file('Figure as SVG', '.svg', 'image/svg+xml', ({ drawing }) => svgOf(drawing)),
  file('Figure as PNG', '.png', 'image/png', ({ drawing }) => pngOf(drawing)),
  file('Figure data as CSV', '.csv', 'text/csv', csvOf),
]
