// The drift over service: what was measured, the law that carries it to the end of service life, and what other laws would give.

import { serviceDrift } from '../../../analysis/lifetime/serviceDrift'
import { driftFigure } from '../../../figures/build/drift'
import type { Lifetime } from '../../../model/schema/build/lifetime'
import { type ExposureUnit, exposureText, LAW_TEXTS } from '../../../model/words/lifetime'
import { plainText } from '../../../numerics/numberText'
import { type Block, group, list, table, text } from '../../document/blocks'
import { fixedCell, plainCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'
import type { SectionSpec } from '../../section'
import type { SheetContext } from '../../sheet'

const SIZE = { widthPx: 420, heightPx: 210 }

function accelerationText({ arrhenius, coffinManson }: Lifetime, unit: ExposureUnit): string {
  if (unit === 'h' && arrhenius !== undefined)
    return `Arrhenius, activation energy ${plainText(arrhenius.activationEnergyEv)} eV, test at ${plainText(arrhenius.testC)} °C, service at ${plainText(arrhenius.serviceC)} °C`
  if (unit === 'cycles' && coffinManson !== undefined)
    return `Coffin-Manson, exponent ${plainText(coffinManson.exponent)}, swing of ${plainText(coffinManson.testSwingC)} °C in the test and ${plainText(coffinManson.serviceSwingC)} °C in service`
  return 'none, service assumed to be as severe as the test'
}

function build({ project, choice, withModes }: SheetContext): readonly Block[] {
  const candidate = choice?.candidate.candidate
  const lifetime = candidate?.lifetime
  if (candidate === undefined || lifetime === undefined) return []
  const outcome = serviceDrift(withModes(project), candidate)
  if (outcome === null) return []
  if (!outcome.ok) return [text(`Not computed: ${outcome.message}`)]
  const drift = outcome.value
  const { test, fit } = drift
  return [
    text(
      `${drift.testName}: ${fit.assemblies} ${fit.assemblies === 1 ? 'assembly' : 'assemblies'}, ${fit.series} ${fit.series === 1 ? 'channel' : 'channels'}, last reading at ${exposureText(test.last, test.unit)}. Law: ${LAW_TEXTS[fit.law].label.toLowerCase()}, drift proportional to ${LAW_TEXTS[fit.law].form}. Acceleration: ${accelerationText(lifetime, test.unit)}; factor ${plainText(drift.acceleration, 3)}. Source stated: ${lifetime.basis ?? 'none'}.`,
    ),
    ...(drift.warnings.length === 0 ? [] : [list(drift.warnings)]),
    group(
      'beside',
      figureBlock(driftFigure({ test, fit, exposure: drift.exposure }), SIZE),
      table(
        `End of service life, equivalent to ${exposureText(drift.exposure, test.unit)} of testing`,
        [
          'Law',
          { label: 'Mean drift', unit: 'dB' },
          { label: '95 % interval, ±', unit: 'dB' },
          { label: 'One channel, ±', unit: 'dB' },
          { label: 'Residuals', unit: 'dB' },
        ],
        drift.byLaw.map((each) => [
          `${LAW_TEXTS[each.fit.law].label}${each.fit.law === fit.law ? ' (chosen)' : ''}`,
          fixedCell(each.meanDb, 3),
          fixedCell(each.meanPlusMinusDb, 3),
          fixedCell(each.onePlusMinusDb, 3),
          each.fit.residualDb === null ? '–' : plainCell(each.fit.residualDb),
        ]),
      ),
    ),
  ]
}

export const lifetimeSection: SectionSpec = { id: 'lifetime', title: 'Drift over service life', build }
