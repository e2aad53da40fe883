// One headless Chromium for end-to-end tests and page timings: an installed one where there is one, else a package's.

import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

const INSTALLED = ['/usr/bin/google-chrome', '/usr/bin/chromium', '/usr/bin/chromium-browser']
const ARGUMENTS = ['--no-sandbox', '--disable-gpu', '--disable-background-networking']

export async function launchBrowser(): Promise<Browser> {
  const installed = [process.env.CHROME_PATH ?? '', ...INSTALLED].find(
    (path) => path !== '' && existsSync(path),
  )
  if (installed !== undefined) return chromium.launch({ executablePath: installed, args: ARGUMENTS })
  const packaged = (await import('@sparticuz/chromium')).default
  return chromium.launch({
    executablePath: await packaged.executablePath(),
    args: [...packaged.args, ...ARGUMENTS],
  })
}
