// The example projects: each a brief of its own, built as a new project is, with a story and readings. All numbers are invented.

import { type Brief, defaultBrief } from '../../../analysis/proposals/brief'
import { quantityOf } from '../../../model/quantity/quantity'
import type { Measurement } from '../../../model/schema/measurement'
import type { Project } from '../../../model/schema/project'
import { buildProject } from '../buildProject'
import { farField, loopback, offsetScan } from './readings'

const quiet = () => {}

async function built(
  brief: Brief,
  story: string,
  chosenId: string,
  measurements: readonly Measurement[],
): Promise<Project> {
  const { project } = await buildProject(brief, new AbortController().signal, quiet)
  return {
    ...project,
    remark: `${story} Example: all numbers and readings are invented.`,
    review: { chosenId },
    measurements: [...measurements],
  }
}

export function transmitter(story: string): Promise<Project> {
  const brief: Brief = {
    ...defaultBrief(),
    name: 'Ranging transmitter',
    fibreId: 'fibre-core-pm',
    platformId: 'facet-iii-v',
    mfdX: quantityOf(3.2, 'um'),
    mfdY: quantityOf(2.6, 'um'),
    lossLimit: quantityOf(2.5, 'dB'),
    lossBasis: 'RSS',
    direction: 'chip to fibre',
    further: {
      collimatedSection: true,
      isolator: {
        length: quantityOf(2.5, 'mm'),
        aperture: quantityOf(0.9, 'mm'),
        isolation: quantityOf(30, 'dB'),
      },
      powerIn: quantityOf(200, 'mW'),
      temperatureMin: quantityOf(10, 'degC'),
      temperatureMax: quantityOf(60, 'degC'),
    },
  }
  return built(brief, story, 'relay', farField('far-field', 'pm-fibre-far-field.csv', 1.55, 10.1))
}

export function sscArray(story: string): Promise<Project> {
  const brief: Brief = {
    ...defaultBrief(),
    name: '16-channel transceiver array',
    wavelength: quantityOf(1310, 'nm'),
    platformId: 'facet-silicon',
    mfdX: quantityOf(3, 'um'),
    mfdY: quantityOf(2.8, 'um'),
    lossLimit: quantityOf(3, 'dB'),
    lossBasis: 'RSS',
    channels: 16,
    pitch: quantityOf(127, 'um'),
    direction: 'both',
  }
  return built(brief, story, 'ssc', loopback('loopback', 'loopback-16-channels.csv', 1.6, 1.8))
}

export function testBench(story: string): Promise<Project> {
  const brief: Brief = {
    ...defaultBrief(),
    name: 'Lensed-fibre test bench',
    lossLimit: quantityOf(1.5, 'dB'),
    lossBasis: 'nominal',
    further: { bonding: 'not bonded' },
  }
  return built(brief, story, 'lensed', offsetScan('offset-scan', 'facet-offset-scan.csv', 3, 3.3, 2.9))
}
