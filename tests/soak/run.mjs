// npm run soak -- --seed N --minutes M: random actions on the built app in a browser, ten minutes by default. It acts on
// whatever buttons, links, tabs, fields and drawings there are, so that it knows nothing of the screens. It fails for a complaint
// of the console, for a NaN, Infinity or undefined in sight, in words or in a drawing, and for a heap that has grown by more than half.
// Needs `npm run build` first.

import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { createServer, preview } from 'vite'

const root = fileURLToPath(new URL('../..', import.meta.url))
const { values } = parseArgs({
  options: { seed: { type: 'string', default: '1' }, minutes: { type: 'string', default: '10' } },
})
const MOST_HEAP_GROWTH = 1.5
/** Actions between two looks at the whole history: what was added is undone, so that only a leak grows. */
const UNDO_EVERY = 60
const UNDO_STEPS = 120

/** What would leave the page, the browser or this machine. */
const LEFT_ALONE = /\b(open|save|print|download|export|reload|import|choose files?|copy|link)\b/i
const TEXTS = [
  '3',
  '0',
  '-1',
  '1e9',
  '1e-9',
  '10.4/2 um',
  '2 nm',
  '1,000',
  'abc',
  '=1+1',
  '',
  '45 deg',
  '900',
]
const KEYS = ['Escape', 'Enter', 'Tab', 'ArrowUp', 'ArrowDown', 'Control+z', 'Control+y', 'PageDown', 'Home']
const ACTED_ON =
  'button, a[href^="#"], [role=tab], [role=button], [role=menuitem], [role=option], input, select, textarea, summary, svg, canvas'

// mulberry32, public domain (T. Ettinger): enough for choosing buttons.
let state = Number(values.seed) | 0
function unit() {
  state = (state + 0x6d2b79f5) | 0
  let t = Math.imul(state ^ (state >>> 15), 1 | state)
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
  return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
}
const below = (count) => Math.floor(unit() * count)
const pick = (list) => list[below(list.length)]

const loader = await createServer({
  root,
  configFile: false,
  logLevel: 'error',
  appType: 'custom',
  optimizeDeps: { noDiscovery: true },
  server: { middlewareMode: true, hmr: false, ws: false, watch: null },
})
const { launchBrowser } = await loader.ssrLoadModule('/tests/e2e/support/launch.ts')
const server = await preview({ root, logLevel: 'error', preview: { port: 0, host: '127.0.0.1' } })
const browser = await launchBrowser()
const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
await context.addInitScript(() => {
  for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker)
  window.print = () => undefined
})
const page = await context.newPage()
const complaints = []
page.on('console', (message) => message.type() === 'error' && complaints.push(`console: ${message.text()}`))
page.on('pageerror', (error) => complaints.push(`error: ${error.message}`))
page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined))
page.on('filechooser', () => undefined)
await page.goto(server.resolvedUrls.local[0])
await page.getByRole('main').waitFor()
const devTools = await context.newCDPSession(page)

async function heapMb() {
  await devTools.send('HeapProfiler.collectGarbage')
  await devTools.send('HeapProfiler.collectGarbage')
  const { usedSize } = await devTools.send('Runtime.getHeapUsage')
  return usedSize / 1e6
}

/** Visible things that can be acted on, by their place among all that match. */
const places = () =>
  page.$$eval(
    ACTED_ON,
    (elements, left) =>
      elements.flatMap((element, place) => {
        const box = element.getBoundingClientRect()
        const seen = box.width > 3 && box.height > 3 && box.bottom > 0 && box.top < innerHeight
        const name = `${element.getAttribute('aria-label') ?? ''} ${element.textContent?.slice(0, 80) ?? ''}`
        const skipped = element.tagName !== 'SVG' && new RegExp(left, 'i').test(name)
        const isFile = element instanceof HTMLInputElement && element.type === 'file'
        return seen && !skipped && !isFile && !element.hasAttribute('disabled')
          ? [{ place, tag: element.tagName.toLowerCase(), name: name.trim().slice(0, 40) }]
          : []
      }),
    LEFT_ALONE.source,
  )

const QUICK = { timeout: 1500, force: true }

async function drag(target) {
  const box = await target.boundingBox()
  if (box === null) return
  const at = () => [box.x + unit() * box.width, box.y + unit() * box.height]
  await page.mouse.move(...at())
  await page.mouse.down()
  for (let i = 0; i < 3; i++) await page.mouse.move(...at())
  await page.mouse.up()
}

/** One random action; what it was, for the report of a fault. */
async function act() {
  if (unit() < 0.1) {
    const key = pick(KEYS)
    await page.keyboard.press(key)
    return `key ${key}`
  }
  const found = await places()
  if (found.length === 0) {
    await page.keyboard.press('Escape')
    return 'key Escape'
  }
  const { place, tag, name } = pick(found)
  const target = page.locator(ACTED_ON).nth(place)
  try {
    if (tag === 'select') {
      const options = await target.locator('option').count()
      await target.selectOption({ index: below(Math.max(1, options)) }, QUICK)
    } else if (tag === 'svg' || tag === 'canvas') await drag(target)
    else if ((tag === 'input' || tag === 'textarea') && unit() < 0.8) {
      await target.fill(pick(TEXTS), QUICK)
      await page.keyboard.press(pick(['Enter', 'Tab', 'Escape']))
    } else await target.click(QUICK)
  } catch {
    // It has gone, is covered, or takes no text: the next action is another.
  }
  return `${tag} "${name}"`
}

/** What must not appear on a screen, with the words around it. */
const wrongInSight = () =>
  page.evaluate(() => {
    const fields = [...document.querySelectorAll('input, textarea')].map((field) => field.value)
    const text = `${document.body.innerText}\n${fields.join('\n')}`
    const match = /.{0,40}(?<![\w"'“])(NaN|Infinity|undefined|\[object Object\])(?!\w).{0,40}/.exec(text)
    if (match !== null) return match[0]
    // The formatters word a number that is not finite: "not known dB", "± no limit".
    const worded =
      /.{0,40}(?:± (?:not known|no limit)|\b(?:not known|no limit) (?:dB|µm|nm|mm|°|%|mrad|µrad|K|mW|µW|W|ps)(?![\w])).{0,20}/.exec(
        text,
      )
    if (worded !== null) return worded[0]
    for (const shape of document.querySelectorAll('svg *')) {
      for (const { name, value } of shape.attributes) {
        if (/\b(?:NaN|Infinity)\b|not known|no limit/.test(value) && !/^aria-|^data-unformatted/.test(name))
          return `<${shape.tagName} ${name}="${value.slice(0, 60)}">`
      }
    }
    return null
  })

async function undoAll() {
  await page.keyboard.press('Escape')
  await page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur())
  for (let i = 0; i < UNDO_STEPS; i++) await page.keyboard.press('Control+z')
}

const faults = []
const deadline = Date.now() + 60_000 * Number(values.minutes)
/** What is loaded when it is first asked for is part of the start. */
const warmUp = Date.now() + 0.15 * 60_000 * Number(values.minutes)
let startMb = null
let actions = 0
const recent = []
while (Date.now() < deadline && faults.length < 10) {
  recent.push(await act())
  if (recent.length > 6) recent.shift()
  actions++
  const wrong = await wrongInSight().catch(() => null) // the page may be between two addresses
  if (wrong !== null) faults.push(`on screen: ${wrong} after ${recent.join(' > ')}`)
  for (const complaint of complaints.splice(0)) faults.push(`${complaint} after ${recent.join(' > ')}`)
  if (wrong !== null || actions % UNDO_EVERY === 0) await undoAll()
  if (startMb === null && Date.now() > warmUp) {
    await undoAll()
    startMb = await heapMb()
  }
}
await undoAll()
const endMb = await heapMb()
const growth = endMb / (startMb ?? endMb)
if (growth > MOST_HEAP_GROWTH) faults.push(`the heap grew by a factor of ${growth.toFixed(2)}`)
console.log(
  `seed ${values.seed}, ${values.minutes} min, ${actions} actions; heap ${startMb?.toFixed(1)} MB after the warm-up, ${endMb.toFixed(1)} MB at the end (${growth.toFixed(2)})`,
)
for (const fault of new Set(faults)) console.log(fault)
await browser.close()
await server.close()
await loader.close()
process.exit(faults.length === 0 ? 0 : 1)
