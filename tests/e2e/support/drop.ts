// Files dropped on the window, as a user drags them there.

import type { Page } from 'playwright-core'

export interface DroppedFile {
  readonly name: string
  readonly bytes: Uint8Array
}

export const textFile = (name: string, text: string): DroppedFile => ({
  name,
  bytes: new TextEncoder().encode(text),
})

export async function drop(page: Page, ...files: readonly DroppedFile[]): Promise<void> {
  const sent = files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') }))
  await page.evaluate((dropped) => {
    const transfer = new DataTransfer()
    for (const { name, base64 } of dropped) {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      transfer.items.add(new File([bytes], name, { lastModified: Date.UTC(2026, 2, 14) }))
    }
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, cancelable: true }))
  }, sent)
}
