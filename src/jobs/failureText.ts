// Why a run has ended without a result, in words.

import { WORKER_ENDED, WORKER_SILENT } from './workerLife'

/** Whether the error says that the worker is gone: a sentence of its own, which is no fault of the work. */
export function isWorkerLoss(error: unknown): error is Error {
  return error instanceof Error && [WORKER_ENDED, WORKER_SILENT].includes(error.message)
}

export function failureText(error: unknown): string {
  if (isWorkerLoss(error)) return error.message
  return `The run failed: ${error instanceof Error ? error.message : String(error)}`
}
