// The thread that tries mutants, one at a time: a mutant that hangs it takes nothing else along. Vite loads the TypeScript.

import { fileURLToPath } from 'node:url'
import { parentPort } from 'node:worker_threads'
import { createServer } from 'vite'

const server = await createServer({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  configFile: false,
  logLevel: 'error',
  appType: 'custom',
  optimizeDeps: { noDiscovery: true },
  server: { middlewareMode: true, hmr: false, ws: false, watch: null },
})
const { KINDS, outcomeOf } = await server.ssrLoadModule('/tests/fuzz/kinds.ts')

parentPort.on('message', async ({ id, seed, number }) => {
  const kind = KINDS.find((each) => each.id === id)
  parentPort.postMessage(await outcomeOf(kind, seed, number))
})
parentPort.postMessage({ kinds: KINDS.map(({ id, label, what }) => ({ id, label, what })) })
