// The Content-Security-Policy that the built pages carry: nothing is fetched from or sent to anywhere else, no text becomes code,
// and an inline script runs by its hash only. Source: Content Security Policy Level 3, W3C.
// Styles are allowed in the page: the plotting library writes its own style sheet when it starts. They cannot run anything.
// Fonts may be `data:`: pictures are exported with the typeface in them.

import { createHash } from 'node:crypto'
import type { Plugin } from 'vite'

const SCRIPT = /<script\b([^>]*)>([\s\S]*?)<\/script>/g
const CHARSET = /<meta charset="[^"]*"\s*\/?>/

function hashesOf(html: string): readonly string[] {
  const inline = [...html.matchAll(SCRIPT)].filter(([, attributes = '']) => !/\ssrc=/.test(attributes))
  return inline.map(([, , text = '']) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`)
}

/** The policy for a page; in the build of one file everything is in the page: as text, as `data:`, or, for workers, as `blob:`. */
function policyOf(html: string, single: boolean): string {
  const own = single ? '' : " 'self'"
  const scripts = [...(single ? [] : ["'self'"]), ...hashesOf(html)].join(' ')
  return [
    "default-src 'none'",
    `script-src ${scripts}`,
    `style-src${own} 'unsafe-inline'`,
    `img-src${own} data:`,
    `font-src${own} data:`,
    single ? "connect-src 'none'" : "connect-src 'self'",
    single ? 'worker-src blob:' : "worker-src 'self'",
    ...(single ? [] : ["manifest-src 'self'"]),
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
}

/** Writes the policy into the page, before anything that it is about. */
export function contentPolicy(single: boolean): Plugin {
  return {
    name: 'content-policy',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        for (const file of Object.values(bundle)) {
          if (file.type !== 'asset' || !file.fileName.endsWith('.html')) continue
          const html = String(file.source)
          const policy = `<meta http-equiv="Content-Security-Policy" content="${policyOf(html, single)}" />`
          file.source = html.replace(CHARSET, (charset) => `${charset}\n    ${policy}`)
        }
      },
    },
  }
}
