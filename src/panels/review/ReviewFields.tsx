// The selected design, the rationale, open questions, signatories and paper.

import type { Project } from '../../model/schema/project'
import { PAPERS, REVIEW_DEFAULTS } from '../../model/words/review'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { TextArea } from '../../ui/fields/TextArea'
import { editReview, linesOf } from './editReview'

const MOST_LINES_TEXT = 20_000

export function ReviewFields({ project }: { readonly project: Project }) {
  const { candidates, review } = project
  const chosen = candidates.find(({ id }) => id === review?.chosenId)
  return (
    <section aria-label="Review">
      <ChoiceField
        label="Selected design"
        value={chosen?.id ?? ''}
        choices={[
          { value: '', label: 'none yet' },
          ...candidates.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChoose={(id) =>
          editReview((draft) => {
            if (id === '') delete draft.chosenId
            else draft.chosenId = id
          })
        }
      />
      <TextArea
        label="Rationale"
        text={review?.reason ?? ''}
        longest={10_000}
        onCommit={(reason) =>
          editReview((draft) => {
            draft.reason = reason
          })
        }
      />
      <TextArea
        label="Open questions (one per line)"
        text={(review?.openQuestions ?? []).join('\n')}
        longest={MOST_LINES_TEXT}
        onCommit={(text) =>
          editReview((draft) => {
            draft.openQuestions = linesOf(text)
              .slice(0, 200)
              .map((line) => line.slice(0, 2000))
          })
        }
      />
      <TextArea
        label="Signatories, by role (one per line)"
        text={(review?.roles ?? REVIEW_DEFAULTS.roles).join('\n')}
        longest={MOST_LINES_TEXT}
        rows={5}
        onCommit={(text) =>
          editReview((draft) => {
            draft.roles = linesOf(text)
              .slice(0, 20)
              .map((line) => line.slice(0, 200))
          })
        }
      />
      <ChoiceField
        label="Paper"
        value={review?.paper ?? REVIEW_DEFAULTS.paper}
        choices={PAPERS.map((paper) => ({ value: paper, label: paper }))}
        onChoose={(value) =>
          editReview((draft) => {
            draft.paper = PAPERS.find((each) => each === value) ?? REVIEW_DEFAULTS.paper
          })
        }
      />
    </section>
  )
}
