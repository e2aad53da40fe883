// One headless Chromium for end-to-end tests and page timings: an installed one if there is one, otherwise that of a package.

import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

const INSTALLED = ['/usr/bin/google-chrome', '/usr/bin/chromium', '/usr/bin/chromium-browser']
const ONE_PROCESS = ['--single-process', '--no-zygote', '--in-process-gpu']
const ARGUMENTS = ['--no-sandbox', '--disable-gpu', '--disable-background-networking']

/** The browser, with `extra` arguments; timings of pages want none. */
export async function launchBrowser(extra: readonly string[] = []): Promise<Browser> {
  const own = [...ARGUMENTS, ...extra]
  const installed = [process.env.CHROME_PATH ?? '', ...INSTALLED].find(
    (path) => path !== '' && existsSync(path),
  )
  if (installed !== undefined) return chromium.launch({ executablePath: installed, args: own })
  const packaged = (await import('@sparticuz/chromium')).default
  return chromium.launch({
    executablePath: await packaged.executablePath(),
    // In one process a worker or a closed tab can take the whole browser with it.
    args: [...packaged.args.filter((argument) => !ONE_PROCESS.includes(argument)), ...own],
  })
}
