// The app without a network: a service worker keeps its files. A new version is fetched next to the old one and waits; it takes
// over only when the user asks for it, because nobody wants a reload in the middle of work.

const WORKER = 'sw.js'
/** The first seconds belong to the page. */
const DELAY_MS = 2000

/** Reports a version that waits, with the function that starts it. Returns the function that stops listening. */
export function watchUpdates(offer: (start: () => void) => void): () => void {
  const { serviceWorker } = navigator
  // A page from a disk, or one that is not secure, has none.
  if (!import.meta.env.PROD || serviceWorker === undefined || !location.protocol.startsWith('http')) {
    return () => {}
  }
  let stopped = false
  const offerWaiting = (registration: ServiceWorkerRegistration) => {
    const { waiting } = registration
    if (stopped || waiting === null || serviceWorker.controller === null) return
    offer(() => {
      serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
      waiting.postMessage({ type: 'SKIP_WAITING' })
    })
  }
  const register = async () => {
    try {
      const registration = await serviceWorker.register(WORKER, { scope: './' })
      const offerInstalled = () => {
        const { installing } = registration
        installing?.addEventListener('statechange', () => {
          if (installing.state === 'installed') offerWaiting(registration)
        })
      }
      offerWaiting(registration)
      offerInstalled() // the browser may have found it before this page asked
      registration.addEventListener('updatefound', offerInstalled)
    } catch {
      // The browser refuses it, or the page is served without one: everything works, but only with the network.
    }
  }
  const timer = setTimeout(() => void register(), DELAY_MS)
  return () => {
    stopped = true
    clearTimeout(timer)
  }
}
