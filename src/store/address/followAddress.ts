// Keeps the address and what is on screen the same: moving about adds to the browser's history, back and forward move about,
// a reload comes back to the same place. A link that holds a project is handed to `openLink`.

import { chosenDesign } from '../selection'
import { DEPTH_TABS, PAGES, type Page, showPage, view } from '../view'
import { workbench } from '../workbench'
import { type Detail, detailOf, registerDetail, showDetail, watchDetails } from './details'
import { addressFragment, addressOf, isProjectLink, type PageAddress } from './pageAddress'

const designIdNow = () => chosenDesign(workbench.getState().project.candidates, view.getState())?.id

const showDesign = ({ item, tab }: Detail) => {
  const depthTab = DEPTH_TABS.find((each) => each === tab)
  if (item !== undefined && item !== designIdNow()) view.setState({ designId: item, elementId: '' })
  if (depthTab !== undefined) view.setState({ depthTab })
}

const watchDesign = (tell: () => void) => {
  view.subscribe((state, before) => {
    if (state.designId !== before.designId || state.depthTab !== before.depthTab) tell()
  })
}

/** True once the project is on screen that the address names; until then it may name designs that are still to come. */
let isSettled = false

/** A design by its id; none while the project has no designs. */
const designDetail = (): Detail => {
  const item = isSettled ? designIdNow() : view.getState().designId
  return item === undefined || item === '' ? {} : { item }
}

registerDetail('design', {
  read: () => ({ ...designDetail(), tab: view.getState().depthTab }),
  show: showDesign,
  watch: watchDesign,
})
for (const page of ['sizing', 'order'] as const) {
  registerDetail(page, { read: designDetail, show: showDesign, watch: () => {} })
}

function fragmentNow(): string {
  const { page } = view.getState()
  return addressFragment({ page, ...detailOf(page) })
}

function isPage(name: string): name is Page {
  return PAGES.some((page) => page === name)
}

/** Shows the place, as far as there is such a page; what it names within the page may be gone. */
function show({ page, item, tab }: PageAddress): void {
  if (!isPage(page)) return
  showPage(page)
  showDetail(page, { ...(item === undefined ? {} : { item }), ...(tab === undefined ? {} : { tab }) })
}

function showAddress(): void {
  const address = addressOf(location.hash)
  if (address !== null) show(address)
}

interface FollowedAddress {
  /** To be called once the kept project is on screen: shows in it what the address names, which is what was chosen last. */
  readonly settle: () => void
  readonly stop: () => void
}

/**
 * Shows what the address names and follows from now on in both directions. Whoever moves about before the kept project is there
 * writes the address too, so that the project comes to the place that was chosen and does not leave it.
 */
export function followAddress(openLink: (fragment: string) => Promise<void>): FollowedAddress {
  isSettled = false
  /** True while the address is the cause of a change, which then is not a step of its own. */
  let following = false
  const correct = () => {
    if (isSettled && location.hash !== fragmentNow()) history.replaceState(null, '', fragmentNow())
  }
  const takeLink = (fragment: string) => {
    history.replaceState(null, '', fragmentNow()) // a reload must not open it again
    void openLink(fragment)
  }
  const showAddressed = () => {
    following = true
    showAddress()
    following = false
    correct()
  }
  const onHash = () => {
    if (!isProjectLink(location.hash)) showAddressed()
    else if (isSettled) takeLink(location.hash)
  }
  const onMove = () => {
    if (following || location.hash === fragmentNow()) return
    // A link keeps its address until it is opened; and nothing has been chosen where one project replaces another.
    const isChoice = isSettled || (!isProjectLink(location.hash) && view.getState().designId !== '')
    if (isChoice) history.pushState(null, '', fragmentNow())
  }
  showAddressed()
  const stopView = view.subscribe((state, before) => {
    if (state.page !== before.page) onMove()
  })
  const stopDetails = watchDetails(onMove)
  window.addEventListener('hashchange', onHash)
  window.addEventListener('popstate', onHash)
  return {
    settle: () => {
      isSettled = true
      onHash()
    },
    stop: () => {
      stopView()
      stopDetails()
      window.removeEventListener('hashchange', onHash)
      window.removeEventListener('popstate', onHash)
    },
  }
}
