// The guided tour: what each step shows and says. A step names a region by its accessible name, as everybody finds it.

import type { Page } from '../../store/view'

interface TourStep {
  readonly page: Page
  /** What is pointed at; a step whose region is not on screen points at nothing. */
  readonly target: string
  readonly title: string
  readonly text: string
}

const region = (name: string) => `[aria-label="${name}"]`

export const TOUR_STEPS: readonly TourStep[] = [
  {
    page: 'design',
    target: region('Designs'),
    title: 'Designs',
    text: 'Each design is one complete optical path from fibre to waveguide. Add one of each family and compare them.',
  },
  {
    page: 'design',
    target: region('Verdicts'),
    title: 'Verdicts',
    text: 'Every requirement, met or not, with its result and limit. This row is shown on every page.',
  },
  {
    page: 'design',
    target: region('Path'),
    title: 'Path',
    text: 'The mode from fibre to waveguide, with every element and its loss. Select an element to work on it.',
  },
  {
    page: 'design',
    target: region('Drawing'),
    title: 'Drawing',
    text: 'The selected joint to scale. Drag the fibre or enter a dimension: budget and curves update at once.',
  },
  {
    page: 'design',
    target: region('Inspector'),
    title: 'Inspector',
    text: 'All numbers of the selected element, each with tolerance and source. Press F1 in a field to read its definition.',
  },
  {
    page: 'design',
    target: region('Budget'),
    title: 'Budget',
    text: 'The loss broken down by cause. Its lines add up exactly; below them are RSS, worst case and percentile.',
  },
  {
    page: 'parts',
    target: region('Part list'),
    title: 'Parts',
    text: 'Fibres, facets, lenses and media. The catalogue has generic ones to start from.',
  },
  {
    page: 'measurements',
    target: region('Measurement list'),
    title: 'Measurements',
    text: 'Scans and images become mode-field diameters with their uncertainty. Try one of the examples.',
  },
  {
    page: 'review',
    target: region('Review settings'),
    title: 'Review',
    text: 'The document for the design review, ready to print. That completes the tour.',
  },
]
