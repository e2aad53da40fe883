// The conic constant and aspheric terms of a lens's curved faces, and the fourth-order term of a rod, as the data sheet has them.

import type { LensEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'
import { readTerms, type Terms, termsText, withTerms } from './lensTermsText'

interface TermField {
  readonly label: string
  readonly conic: string
  readonly aspheric: string
}

const ONE: readonly TermField[] = [
  { label: 'Conic; A4 A6 … (mm⁻³, mm⁻⁵, …)', conic: 'conic', aspheric: 'aspheric' },
]
const BOTH: readonly TermField[] = [
  { label: 'Conic; A4 A6 …, collimated side', conic: 'frontConic', aspheric: 'frontAspheric' },
  { label: 'Conic; A4 A6 …, focused side', conic: 'backConic', aspheric: 'backAspheric' },
]

function fieldsOf({ shape }: LensEntry): readonly TermField[] {
  if (shape.kind === 'plano-convex') return ONE
  return shape.kind === 'biconvex' ? BOTH : []
}

export function LensTerms({
  lens,
  find,
}: {
  readonly lens: LensEntry
  readonly find: (draft: Project) => LensEntry | undefined
}) {
  const { shape } = lens
  const read = (field: TermField): Terms => {
    const own = shape as unknown as Readonly<Record<string, unknown>>
    const [conic, aspheric] = [own[field.conic], own[field.aspheric]]
    return {
      conic: typeof conic === 'number' ? conic : 0,
      aspheric: Array.isArray(aspheric) ? aspheric.filter((each) => typeof each === 'number') : [],
    }
  }
  return (
    <>
      {fieldsOf(lens).map((field) => (
        <TextField
          key={field.conic}
          label={field.label}
          text={termsText(read(field))}
          emptyAllowed
          onCommit={(text) => {
            const terms = readTerms(text)
            if (typeof terms === 'string') return terms
            editProject((draft) => {
              const own = find(draft)
              if (own !== undefined) own.shape = withTerms(own.shape, field.conic, field.aspheric, terms)
            })
            return null
          }}
        />
      ))}
      {shape.kind === 'gradient index' && (
        <TextField
          label="Fourth-order profile term h4"
          text={shape.fourthOrder === undefined ? '' : String(shape.fourthOrder)}
          emptyAllowed
          onCommit={(text) => {
            const value = text === '' ? 0 : Number(text)
            if (!Number.isFinite(value) || Math.abs(value) > 10) {
              return `Fourth-order term: "${text}"; must be a number from −10 to 10`
            }
            editProject((draft) => {
              const own = find(draft)
              if (own?.shape.kind !== 'gradient index') return
              if (text === '') delete own.shape.fourthOrder
              else own.shape.fourthOrder = value
            })
            return null
          }}
        />
      )}
    </>
  )
}
