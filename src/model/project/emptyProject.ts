import { quantityOf } from '../quantity/quantity'
import type { Project } from '../schema/project'
import { PROJECT_FORMAT, PROJECT_VERSION } from '../words/projectFile'

/** A project with the requirements of a common telecom job, one gap medium, and no parts or candidates. */
export function emptyProject(): Project {
  return {
    format: PROJECT_FORMAT,
    version: PROJECT_VERSION,
    name: 'Untitled interface',
    seed: 1,
    requirements: {
      direction: 'fibre to chip',
      wavelength: quantityOf(1550, 'nm'),
      channels: 1,
      pitch: quantityOf(127, 'um'),
      losses: [
        { id: 'loss', limit: quantityOf(2, 'dB'), basis: 'percentile', percentile: 99, channels: 'one' },
      ],
      polarisation: 'any',
      temperatureMin: quantityOf(0, 'degC'),
      temperatureMax: quantityOf(70, 'degC'),
      collimatedSection: false,
      bonding: 'free choice',
      station: {
        lateral: quantityOf(0.5, 'um'),
        axial: quantityOf(1, 'um'),
        angular: quantityOf(0.2, 'deg'),
      },
    },
    fibres: [],
    facets: [],
    media: [
      {
        id: 'air',
        name: 'Air',
        state: 'gas',
        index: { kind: 'material', material: 'air' },
      },
    ],
    converters: [],
    lenses: [],
    candidates: [],
    measurements: [],
  }
}
