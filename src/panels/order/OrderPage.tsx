// Ordering a design: the build and the terms of each part on the left, order list and the documents that go out on the right.

import { useDeferredValue, useMemo, useState } from 'react'
import { issueText } from '../../model/issue'
import {
  buildPaper,
  PAPER_KINDS,
  PAPER_TITLES,
  type PaperKind,
  type PaperRequest,
  requestedSpecification,
  suppliersOf,
} from '../../report/papers'
import { useEvaluations } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useDesign } from '../../store/selection'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { ListDetail } from '../../ui/controls/ListDetail'
import { Pane } from '../../ui/controls/Panes'
import { Tabs } from '../../ui/controls/Tabs'
import { NoDesign } from '../../ui/empty/NoDesign'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { BuildFields } from './BuildFields'
import { InspectionFields } from './InspectionFields'
import { OrderListView } from './OrderListView'
import './order.css'
import { PaperFiles } from './PaperFiles'
import { PaperView } from './PaperView'
import { PartTerms } from './PartTerms'

const LIST = 'list'
const ALL = ''

export function OrderPage() {
  const project = useWorkbench((state) => state.project)
  const design = useDesign()
  // The day on which the page was opened: a document that is being read does not change at midnight.
  const [today] = useState(() => new Date().toISOString().slice(0, 10))
  const [tab, setTab] = useState('build')
  const [shown, setShown] = useState<PaperKind | typeof LIST>(LIST)
  const [part, setPart] = useState('')
  const [supplier, setSupplier] = useState(ALL)
  const evaluate = useEvaluations()
  const yields = useFreshRuns('yield', project)
  const settled = useDeferredValue(project)
  const request = useMemo((): PaperRequest | null => {
    const candidate = settled.candidates.find(({ id }) => id === design?.id)
    if (candidate === undefined) return null
    const result = evaluate(settled, candidate.id)
    return result.ok ? { project: settled, candidate, evaluation: result.value, date: today } : null
  }, [settled, design?.id, evaluate, today])
  const whole = useMemo(() => (request === null ? null : requestedSpecification(request)), [request])
  if (design === undefined) {
    return (
      <div className="page">
        <h1>Order</h1>
        <NoDesign shows="The parts to purchase with their tolerances, the process sheet and the inspection plan." />
      </div>
    )
  }
  const waiting = request?.evaluation.awaitsFit === true
  const suppliers = whole === null ? [] : suppliersOf(whole)
  const chosenSupplier = suppliers.includes(supplier) ? supplier : ALL
  const asked: PaperRequest | null =
    request === null || chosenSupplier === ALL ? request : { ...request, supplier: chosenSupplier }
  const methods = [
    ...new Set(whole?.items.flatMap(({ characteristics }) => characteristics.map((each) => each.method))),
  ]
  const paper = (kind: PaperKind) => {
    const result = asked === null ? evaluate(project, design.id) : null
    return asked === null ? (
      <ul className="complaints">
        {result?.ok === false &&
          result.issues.map((issue) => <li key={issue.message}>{issueText(issue)}</li>)}
      </ul>
    ) : (
      <PaperView printed={buildPaper(kind, asked)} name={PAPER_TITLES[kind]} />
    )
  }
  const settings = (
    <section className="pane screen-only" aria-label="Order settings">
      <header className="order-head">
        <button type="button" className="primary" disabled={waiting} onClick={() => window.print()}>
          Print or PDF
        </button>
        <span role="status" className="quiet">
          {waiting ? 'Computing real fields…' : ''}
        </span>
      </header>
      <div className="pane-body">
        {shown !== LIST && shown !== 'process' && suppliers.length > 0 && (
          <ChoiceField
            label="Documents for"
            value={chosenSupplier}
            choices={[
              { value: ALL, label: 'all suppliers' },
              ...suppliers.map((name) => ({ value: name, label: name })),
            ]}
            onChoose={setSupplier}
          />
        )}
        <Tabs
          flowing
          label="Order settings"
          chosen={tab}
          onChoose={setTab}
          tabs={[
            {
              id: 'build',
              label: 'Build',
              view: () => <BuildFields purchase={project.purchase} run={yields.get(design.id) ?? null} />,
            },
            {
              id: 'parts',
              label: 'Parts',
              view: () => <PartTerms items={whole?.items ?? []} chosen={part} onChoose={setPart} />,
            },
            {
              id: 'inspection',
              label: 'Inspection',
              view: () => <InspectionFields purchase={project.purchase} methods={methods} />,
            },
          ]}
        />
        {shown !== LIST && asked !== null && (
          <PaperFiles key={shown} kind={shown} request={asked} waiting={waiting} />
        )}
      </div>
    </section>
  )
  return (
    <div className="order">
      <h1 className="visually-hidden">Order for {design.name}</h1>
      <ListDetail
        id="order"
        size="20rem"
        listName="order-settings"
        detailName="order-documents"
        list={settings}
        detail={
          <Pane name="Order documents" headless>
            <Tabs
              flowing
              label="Documents"
              chosen={shown}
              onChoose={(id) => setShown(PAPER_KINDS.find((kind) => kind === id) ?? LIST)}
              tabs={[
                {
                  id: LIST,
                  label: 'Order list',
                  view: () => (
                    <>
                      <OrderListView project={project} candidateId={design.id} />
                      <Cautions />
                    </>
                  ),
                },
                ...PAPER_KINDS.map((kind) => ({
                  id: kind,
                  label: PAPER_TITLES[kind],
                  view: () => paper(kind),
                })),
              ]}
            />
          </Pane>
        }
      />
    </div>
  )
}
