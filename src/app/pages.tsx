// The pages in the order of the work, each loaded when it is first shown.

import { type ComponentType, lazy } from 'react'
import type { Page } from '../store/view'
import { evaluating } from './evaluating'

interface PageEntry {
  readonly page: Page
  readonly label: string
  readonly View: ComponentType
}

export const PAGE_LIST: readonly PageEntry[] = [
  {
    page: 'requirements',
    label: 'Requirements',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/requirements/RequirementsPage'))).RequirementsPage,
    })),
  },
  {
    page: 'parts',
    label: 'Parts',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/parts/PartsPage'))).PartsPage,
    })),
  },
  {
    page: 'design',
    label: 'Design',
    View: lazy(async () => ({ default: (await evaluating(() => import('./DesignScreen'))).DesignScreen })),
  },
  {
    page: 'compare',
    label: 'Compare',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/compare/ComparePage'))).ComparePage,
    })),
  },
  {
    page: 'sizing',
    label: 'Sizing',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/sizing/SizingPage'))).SizingPage,
    })),
  },
  {
    page: 'order',
    label: 'Order',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/order/OrderPage'))).OrderPage,
    })),
  },
  {
    page: 'measurements',
    label: 'Measurements',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/measurements/MeasurementsPage'))).MeasurementsPage,
    })),
  },
  {
    page: 'review',
    label: 'Review',
    View: lazy(async () => ({
      default: (await evaluating(() => import('../panels/review/ReviewPage'))).ReviewPage,
    })),
  },
]
