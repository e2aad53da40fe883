// Serves the built app to the end-to-end tests on a free port of this machine.

import { preview } from 'vite'
import type { TestProject } from 'vitest/node'

declare module 'vitest' {
  export interface ProvidedContext {
    appUrl: string
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const server = await preview({
    // The files do not change while tests run: a browser that has them need not ask again.
    preview: { port: 0, host: '127.0.0.1', headers: { 'Cache-Control': 'max-age=3600' } },
    logLevel: 'error',
  })
  const url = server.resolvedUrls?.local[0]
  if (url === undefined) throw new Error('the preview server has no address')
  project.provide('appUrl', url)
  return () => server.close()
}
