// A fibre, stub, SSC chip or facet: what it is made of is a part; this section has what the path does with it.

import type { GuideView, Port } from '../../analysis/results/evaluation'
import type { ChainElement, ElementOf } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { STUB_FORMS } from '../../model/words/candidate'
import { fixedText, plainText } from '../../numerics/numberText'
import { editElement, findElement } from '../../store/elementEdits'
import { showPage } from '../../store/view'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityRow } from '../../ui/fields/QuantityRow'

const FORMS = [
  { value: '', label: 'undecided' },
  { value: 'single', label: 'individual stubs' },
  { value: 'array', label: 'fibre array' },
]

function mfdText({ mfdXUm, mfdYUm }: Port): string {
  return Math.abs(mfdXUm - mfdYUm) < 0.005
    ? `${fixedText(mfdXUm, 2)} µm`
    : `${fixedText(mfdXUm, 2)} × ${fixedText(mfdYUm, 2)} µm`
}

function StubRows({ stub, designId }: { readonly stub: ElementOf<'stub'>; readonly designId: string }) {
  return (
    <>
      <QuantityRow
        label="Stub length"
        quantity={stub.length}
        ruleName="length"
        find={(draft) => findElement(draft, designId, stub.id, 'stub')?.length}
      />
      <ChoiceField
        label="Supplied as"
        value={stub.form ?? ''}
        choices={FORMS}
        onChoose={(value) =>
          editElement(designId, stub.id, 'stub', (own) => {
            own.form = STUB_FORMS.find((each) => each === value)
          })
        }
      />
    </>
  )
}

/** What the path sees of the guide. */
function facts(project: Project, element: ChainElement, guide: GuideView | undefined) {
  if (guide === undefined) return []
  const { entry, exit } = guide
  const same = mfdText(entry) === mfdText(exit) && exit.tip === undefined
  return [
    ...(same
      ? [['MFD', mfdText(entry)] as const]
      : [['MFD, fibre side', mfdText(entry)] as const, ['MFD, chip side', mfdText(exit)] as const]),
    ...(exit.tip === undefined ? [] : [['Working distance', `${fixedText(exit.waistXUm, 1)} µm`] as const]),
    ['Effective index', fixedText(exit.index, 4)] as const,
    [
      'Wavelength',
      `${plainText(project.requirements.wavelength.value, 7)} ${project.requirements.wavelength.unit}`,
    ] as const,
    ...(element.kind === 'facet' ? [] : []),
  ]
}

export function GuideSection({
  project,
  element,
  designId,
  guide,
}: {
  readonly project: Project
  readonly element: ElementOf<'fibre' | 'stub' | 'taper chip' | 'facet'>
  readonly designId: string
  readonly guide: GuideView | undefined
}) {
  return (
    <div className="inspector-rows">
      {element.kind === 'stub' && <StubRows stub={element} designId={designId} />}
      <dl className="inspector-facts">
        {facts(project, element, guide).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <button type="button" className="subtle" onClick={() => showPage('parts')}>
        Edit the part in Parts
      </button>
    </div>
  )
}
