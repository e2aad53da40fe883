// Jobs of workers that are smaller than those of a user: what the page does with a result does not depend on its size.

declare global {
  interface Window {
    /** Set by a test that compares numbers or needs a run that lasts. */
    usualJobs?: boolean
  }
}

/** What a worker is sent: the name of a job, and what it is given. */
interface Message {
  readonly path?: readonly string[]
  readonly argumentList?: readonly { readonly value?: unknown }[]
}

/** Runs in the page before the app. A yield run then ends as one whose accuracy is reached early. */
export function askForSmallJobs(): void {
  const MOST_ARRAYS = 256
  const MOST_ASSEMBLIES = 256
  /** Of a yield run; more than the least that a user can choose. */
  const MOST_BLOCKS = 3
  const BLOCK_SAMPLES = 4096
  const atMost = (most: number) => (value: unknown) =>
    typeof value === 'number' ? Math.min(value, most) : value
  const smallPlan = (value: unknown) =>
    typeof value === 'object' && value !== null && 'samples' in value
      ? { ...value, samples: atMost(MOST_BLOCKS * BLOCK_SAMPLES)(value.samples) }
      : value
  /** By job, what becomes of each thing that it is given. */
  const smaller: Readonly<Record<string, readonly ((value: unknown) => unknown)[]>> = {
    prepare: [(project) => project, smallPlan],
    blocks: [atMost(MOST_BLOCKS), atMost(MOST_BLOCKS)],
    array: [atMost(MOST_ARRAYS)],
    assembly: [atMost(MOST_ASSEMBLIES)],
  }
  const small = (message: Message): Message => {
    const changes = smaller[message?.path?.[0] ?? '']
    if (changes === undefined || window.usualJobs) return message
    const argumentList = (message.argumentList ?? []).map((each, i) => {
      const change = changes[i]
      return change === undefined ? each : { ...each, value: change(each.value) }
    })
    return { ...message, argumentList }
  }
  const post = Worker.prototype.postMessage
  Worker.prototype.postMessage = function (this: Worker, message: Message, ...rest: never[]) {
    return post.call(this, small(message), ...rest)
  }
}
