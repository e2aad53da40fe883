// Keeps the address and what is on screen the same: moving about adds to the browser's history, back and forward move about,
// a reload comes back to the same place. A link that holds a project is handed to `openLink`.

import { chosenDesign } from '../selection'
import { DEPTH_TABS, PAGES, type Page, showPage, view } from '../view'
import { workbench } from '../workbench'
import { type Detail, detailOf, registerDetail, showDetail, watchDetails } from './details'
import { isProjectLink, type Place, placeFragment, placeOf } from './place'

const designIdNow = () => chosenDesign(workbench.getState().project.candidates, view.getState().designId)?.id

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

/** A design by its id; none while the project has no designs. */
const designDetail = (): Detail => {
  const item = designIdNow()
  return item === undefined ? {} : { item }
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
  return placeFragment({ page, ...detailOf(page) })
}

function isPage(name: string): name is Page {
  return PAGES.some((page) => page === name)
}

/** Shows the place, as far as there is such a page; what it names within the page may be gone. */
function show({ page, item, tab }: Place): void {
  if (!isPage(page)) return
  showPage(page)
  showDetail(page, { ...(item === undefined ? {} : { item }), ...(tab === undefined ? {} : { tab }) })
}

/** Shows what the address names; to be called before anything is drawn, and again once the project is there. */
export function showAddress(): void {
  const place = placeOf(location.hash)
  if (place !== null) show(place)
}

/** Follows from now on in both directions. Returns the function that stops it. */
export function followAddress(openLink: (fragment: string) => Promise<void>): () => void {
  /** True while the address is the cause of a change, which then is no step of its own. */
  let following = false
  const settle = () => history.replaceState(null, '', fragmentNow())
  const takeLink = (fragment: string) => {
    settle() // a reload must not open it again
    void openLink(fragment)
  }
  const onHash = () => {
    if (isProjectLink(location.hash)) {
      takeLink(location.hash)
      return
    }
    following = true
    showAddress()
    following = false
    if (location.hash !== fragmentNow()) settle()
  }
  const onMove = () => {
    if (!following && location.hash !== fragmentNow()) history.pushState(null, '', fragmentNow())
  }
  if (isProjectLink(location.hash)) takeLink(location.hash)
  else settle()
  const stopView = view.subscribe((state, before) => {
    if (state.page !== before.page) onMove()
  })
  const stopDetails = watchDetails(onMove)
  window.addEventListener('hashchange', onHash)
  window.addEventListener('popstate', onHash)
  return () => {
    stopView()
    stopDetails()
    window.removeEventListener('hashchange', onHash)
    window.removeEventListener('popstate', onHash)
  }
}
