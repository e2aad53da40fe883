// The sections of the sheet, in its order. A new one is a file in sections/ and a line here.

import type { SectionSpec } from './section'
import { assumptionsSection } from './sections/assumptions'
import { cautionsSection } from './sections/cautions'
import { changesSection } from './sections/changes'
import { choiceSection } from './sections/choice'
import { comparisonSection } from './sections/comparison'
import { evidenceSection } from './sections/evidence'
import { jobSection } from './sections/job'
import { crossSectionSection } from './sections/light/crossSection'
import { fieldsSection } from './sections/light/fields'
import { powerSection } from './sections/light/power'
import { reflectionsSection } from './sections/light/reflections'
import { spectrumSection } from './sections/light/spectrum'
import { arraySection } from './sections/loss/array'
import { budgetSection } from './sections/loss/budget'
import { lifetimeSection } from './sections/loss/lifetime'
import { otherBudgetsSection } from './sections/loss/otherBudgets'
import { spreadSection } from './sections/loss/spread'
import { temperatureSection } from './sections/loss/temperature'
import { windowsSection } from './sections/loss/windows'
import { yieldSection } from './sections/loss/yield'
import { orderSection } from './sections/order'
import { questionsSection } from './sections/questions'
import { signOffSection } from './sections/signOff'
import { summarySection } from './sections/summary'

/** The page that decides, then the appendix by how often it is needed. */
export const SECTIONS: readonly SectionSpec[] = [
  summarySection,
  changesSection,
  choiceSection,
  jobSection,
  budgetSection,
  spreadSection,
  windowsSection,
  yieldSection,
  arraySection,
  temperatureSection,
  lifetimeSection,
  comparisonSection,
  reflectionsSection,
  spectrumSection,
  powerSection,
  fieldsSection,
  crossSectionSection,
  orderSection,
  evidenceSection,
  questionsSection,
  otherBudgetsSection,
  assumptionsSection,
  cautionsSection,
  signOffSection,
]
