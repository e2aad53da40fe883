// How a design is assembled: steps in their order, each with what it sets, what it moves, what it takes and what it scraps.

export const STEP_KINDS = ['place', 'align', 'dispense', 'cure', 'check'] as const
export type StepKind = (typeof STEP_KINDS)[number]

/** A step of the kind `cure` is a `fix` where the joint has no adhesive in its gap. */
export type StepWord = StepKind | 'fix'

export const STEP_LABELS: Readonly<Record<StepWord, string>> = {
  place: 'Place',
  align: 'Align actively',
  dispense: 'Dispense',
  cure: 'Cure',
  fix: 'Fix',
  check: 'Check',
}

/** What a station aligns on. */
export const ALIGN_SIGNALS = ['transmitted power', 'power at both outer channels', 'reflected power'] as const

export const ASSEMBLY_LIMITS = {
  steps: 30,
  minutes: [0, 100_000],
  amount: [0, 1e9],
  percent: [0, 100],
  repeats: [0, 10],
} as const
