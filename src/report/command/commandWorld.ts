// What a command needs from outside, and how it ends where it cannot do its work.

import { type ArrayResult, runArray } from '../../analysis/array/runArray'
import { runYield } from '../../analysis/index'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { issueText } from '../../model/issue'
import { readProjectText } from '../../model/project/parseProject'
import type { Project } from '../../model/schema/project'

export interface CommandWorld {
  /** Text of a file; throws where it cannot be read. */
  readonly readText: (path: string) => string
  /** Writes a file into a folder, which is made where it is missing. */
  readonly writeFile: (folder: string, name: string, content: string | Uint8Array) => void
  readonly say: (line: string) => void
  readonly complain: (line: string) => void
  /** Today as an ISO day. */
  readonly today: string
  /** Runs several designs at a time; absent, they run one after another. The results are the same. */
  readonly simulations?: Simulations
}

/** Runs of one design each, with options as their own functions have them. */
export interface Simulations {
  readonly yieldOf: (project: Project, candidateId: string, samples: number) => Promise<YieldResult>
  readonly arrayOf: (project: Project, candidateId: string, samples: number) => Promise<ArrayResult>
}

/** In this thread, at once. */
export const HERE: Simulations = {
  yieldOf: async (project, candidateId, samples) => runYield(project, candidateId, { samples }),
  arrayOf: async (project, candidateId, samples) => runArray(project, candidateId, { samples }),
}

/** What a command ends with: every requirement met; one not met; one not evaluated; bad use; trouble with a file. */
export const EXIT = { met: 0, notMet: 1, notKnown: 2, badUse: 3, fileTrouble: 4 } as const

/** What keeps a command from its work, in words for the person who called it. */
export class CommandFault extends Error {
  readonly exit: number

  constructor(message: string, exit: number) {
    super(message)
    this.exit = exit
  }
}

/** The project in a file. Throws a CommandFault where there is none. */
export function readProjectAt(world: CommandWorld, path: string): Project {
  let text: string
  try {
    text = world.readText(path)
  } catch (error) {
    throw new CommandFault(
      `${path} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
      EXIT.fileTrouble,
    )
  }
  const result = readProjectText(text)
  if (result.ok) return result.value
  const reasons = [`${path} is not a usable project:`, ...result.issues.map(issueText)]
  throw new CommandFault(reasons.join('\n'), EXIT.fileTrouble)
}

/** Runs the work; what keeps it from ending becomes a complaint and an exit code, never a stack trace. */
export async function guarded(world: CommandWorld, work: () => Promise<number>): Promise<number> {
  try {
    return await work()
  } catch (error) {
    world.complain(error instanceof Error ? error.message : String(error))
    return error instanceof CommandFault ? error.exit : EXIT.notKnown
  }
}
