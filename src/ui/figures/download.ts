// Saving what a figure shows.

const LONGEST_STEM = 48

/** The first words of a sentence as the name of a file. */
export function fileStem(sentence: string): string {
  const words = sentence
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_STEM)
  return words.replace(/^-|-$/g, '') || 'figure'
}

/** Hands the content of an address to whoever asked for it, as a download. */
export function download(url: string, fileName: string): void {
  const link = document.createElement('a')
  link.href = url
  link.download = fileName
  link.click()
}
