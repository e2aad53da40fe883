// A choice that answers how a file is to be read.

import { answerDoubt } from '../../../store/benchDesk'

export function AnswerSelect({
  label,
  value,
  choices,
  answers,
}: {
  readonly label: string
  readonly value: string
  readonly choices: readonly {
    readonly value: string
    readonly label: string
  }[]
  /** Id of the answer that a choice gives. */
  readonly answers: string
}) {
  return (
    <select aria-label={label} value={value} onChange={(event) => answerDoubt(answers, event.target.value)}>
      {choices.map((choice) => (
        <option key={choice.value} value={choice.value}>
          {choice.label}
        </option>
      ))}
    </select>
  )
}
