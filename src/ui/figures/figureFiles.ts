// A figure as a file: vectors, a picture, or the numbers behind it.

import type { FigureBlock } from '../../report/document/blocks'
import { figureFileName, svgFile } from '../../report/figures/figure'

const PIXELS_A_UNIT = 2

/** The drawing as PNG, two pixels for one of its units. */
export async function pngOf(figure: Pick<FigureBlock, 'drawing'>): Promise<Blob> {
  const image = new Image()
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svgFile(figure))}`
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = image.naturalWidth * PIXELS_A_UNIT
  canvas.height = image.naturalHeight * PIXELS_A_UNIT
  const context = canvas.getContext('2d')
  if (context === null) throw new Error('this browser draws no pictures')
  context.drawImage(image, 0, 0, canvas.width, canvas.height)
  return new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => (blob === null ? reject(new Error('the picture is too large')) : resolve(blob)),
      'image/png',
    )
  })
}

async function csvOf({ table }: FigureBlock): Promise<string> {
  return (await import('../../report/formats/csv')).tableText(table)
}

export interface FigureFile {
  readonly label: string
  /** Says in words what came of it. */
  readonly save: (figure: FigureBlock, stem: string) => Promise<string>
}

function file(
  label: string,
  ending: string,
  mediaType: string,
  make: (figure: FigureBlock) => Promise<string | Blob> | string,
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
  file('Figure as SVG', '.svg', 'image/svg+xml', svgFile),
  file('Figure as PNG', '.png', 'image/png', pngOf),
  file('Its numbers as CSV', '.csv', 'text/csv', csvOf),
]
