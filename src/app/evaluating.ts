// Whatever evaluates designs comes behind the first picture, and runs only once the page has said that it cannot wait for fits
// of real joints: they are made off the page.

let begun: Promise<void> | null = null

async function begin(): Promise<void> {
  const { startFitting } = await import('../store/jointFits')
  startFitting()
}

/** Loads what evaluates designs. What cannot be loaded is requested again with the next call. */
export async function evaluating<T>(load: () => Promise<T>): Promise<T> {
  begun ??= begin().catch((error: unknown) => {
    begun = null
    throw error
  })
  const [loaded] = await Promise.all([load(), begun])
  return loaded
}
