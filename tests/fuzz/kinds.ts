// The kinds of mutants, each as a function of the seed and a number: the same mutant again, whenever it is requested.

import { diceFor } from './dice'
import { fileMutant } from './fileMutants'
import { fileTrial } from './fileTrial'
import { numberText, numberTrial } from './numberTexts'
import type { Outcome } from './outcome'
import { projectMutant } from './projectMutants'
import { projectTrial } from './projectTrial'

export interface Kind {
  readonly id: string
  readonly label: string
  readonly what: string
  readonly attempt: (seed: number, number: number) => Promise<Outcome>
}

export const KINDS: readonly Kind[] = [
  {
    id: 'project',
    label: 'Project files',
    what: 'the demo and a project of every family with values, units, tolerances, ids, lists and fields changed; read, evaluated, one design in depth, printed',
    attempt: async (seed, number) => {
      const dice = diceFor(seed, 'project', number)
      return projectTrial(JSON.stringify(projectMutant(dice)), dice)
    },
  },
  {
    id: 'file',
    label: 'Measurement files',
    what: 'tables, PGM, PNG and TIFF images cut short, with bytes, sizes, numbers, separators and comments changed; read, imported, kept in a project, evaluated',
    attempt: async (seed, number) => {
      const { name, bytes } = fileMutant(diceFor(seed, 'file', number))
      return fileTrial(bytes, name)
    },
  },
  {
    id: 'number',
    label: 'Text in number fields',
    what: 'pieces of numbers, units, signs and names in any order, for every kind of quantity',
    attempt: (seed, number) => {
      const { text, rule } = numberText(diceFor(seed, 'number', number))
      return numberTrial(text, rule)
    },
  },
]

/** What came of a mutant; whatever it throws is a fault too. */
export async function outcomeOf(kind: Kind, seed: number, number: number): Promise<Outcome> {
  try {
    return await kind.attempt(seed, number)
  } catch (error) {
    return {
      kind: 'fault',
      faults: [error instanceof Error ? (error.stack ?? error.message) : String(error)],
    }
  }
}
