// npm run sheet: the review sheet of a project file, by the same code as the page. Vite loads the TypeScript.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createServer } from 'vite'

const root = fileURLToPath(new URL('..', import.meta.url))
const server = await createServer({
  root,
  configFile: false,
  logLevel: 'error',
  appType: 'custom',
  optimizeDeps: { noDiscovery: true },
  server: { middlewareMode: true, hmr: false, ws: false, watch: null },
})
try {
  const { sheetCommand } = await server.ssrLoadModule('/src/report/command/sheetCommand.ts')
  process.exitCode = await sheetCommand(process.argv.slice(2), {
    readText: (path) => readFileSync(path, 'utf8'),
    writeFile: (folder, name, content) => {
      mkdirSync(folder, { recursive: true })
      writeFileSync(join(folder, name), content)
    },
    say: (line) => console.log(line),
    complain: (line) => console.error(line),
    today: new Date().toISOString().slice(0, 10),
  })
} finally {
  await server.close()
}
