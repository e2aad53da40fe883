// The sections of the sheet, in its order. A new one is a file in sections/ and a line here.

import type { SectionSpec } from './section'
import { arraySection } from './sections/array'
import { assumptionsSection } from './sections/assumptions'
import { budgetSection } from './sections/budget'
import { cautionsSection } from './sections/cautions'
import { changesSection } from './sections/changes'
import { choiceSection } from './sections/choice'
import { comparisonSection } from './sections/comparison'
import { crossSectionSection } from './sections/crossSection'
import { evidenceSection } from './sections/evidence'
import { fieldsSection } from './sections/fields'
import { jobSection } from './sections/job'
import { orderSection } from './sections/order'
import { otherBudgetsSection } from './sections/otherBudgets'
import { powerSection } from './sections/power'
import { questionsSection } from './sections/questions'
import { reflectionsSection } from './sections/reflections'
import { signOffSection } from './sections/signOff'
import { spectrumSection } from './sections/spectrum'
import { spreadSection } from './sections/spread'
import { temperatureSection } from './sections/temperature'
import { windowsSection } from './sections/windows'
import { yieldSection } from './sections/yield'

export const SECTIONS: readonly SectionSpec[] = [
  jobSection,
  choiceSection,
  crossSectionSection,
  budgetSection,
  spreadSection,
  windowsSection,
  fieldsSection,
  yieldSection,
  temperatureSection,
  arraySection,
  reflectionsSection,
  spectrumSection,
  powerSection,
  comparisonSection,
  otherBudgetsSection,
  changesSection,
  orderSection,
  evidenceSection,
  assumptionsSection,
  cautionsSection,
  questionsSection,
  signOffSection,
]
