// npm run sheet, npm run evaluate: the commands of the built library, with this machine's files and clock.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { buildLibrary, isFresh, libraryPath } from './library.mjs'
import { simulationThreads } from './simulationThreads.mjs'

const [name, ...args] = process.argv.slice(2)
if (!isFresh()) {
  console.error('Building the library once…')
  await buildLibrary({ types: false })
}
const { evaluateCommand, sheetCommand } = await import(pathToFileURL(libraryPath).href)
const command = name === 'sheet' ? sheetCommand : evaluateCommand
const simulations = simulationThreads()
process.exitCode = await command(args, {
  readText: (path) => readFileSync(path, 'utf8'),
  writeFile: (folder, file, content) => {
    mkdirSync(folder, { recursive: true })
    writeFileSync(join(folder, file), content)
  },
  say: (line) => console.log(line),
  complain: (line) => console.error(line),
  today: new Date().toISOString().slice(0, 10),
  simulations,
})
await simulations.stop()
