// A button that may be there for a moment only is clicked by the page itself: a busy machine takes longer to ask for it.

import type { Page } from 'playwright-core'

/**
 * From now on, clicks the button of that name, once, in the moment in which it is there with what says that the work goes on: a
 * progress bar of that label that has moved, or a status of that text. The answer waits until that is done.
 */
export async function clickOnceShown(page: Page, sign: string, button: string): Promise<() => Promise<void>> {
  await page.evaluate(
    ([wanted, name]) => {
      Reflect.set(window, 'clickedOnceShown', false)
      const goesOn = () =>
        [...document.querySelectorAll('progress')].some(
          (bar) => bar.getAttribute('aria-label') === wanted && bar.value > 0,
        ) ||
        [...document.querySelectorAll('[role="status"]')].some(({ textContent }) => textContent === wanted)
      const look = () => {
        const own = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === name)
        if (own === undefined || !goesOn()) return
        watching.disconnect()
        Reflect.set(window, 'clickedOnceShown', true)
        own.click()
      }
      const watching = new MutationObserver(look)
      watching.observe(document, { childList: true, subtree: true, attributes: true, characterData: true })
      look()
    },
    [sign, button] as const,
  )
  return async () => {
    await page.waitForFunction(() => Reflect.get(window, 'clickedOnceShown') === true)
  }
}
