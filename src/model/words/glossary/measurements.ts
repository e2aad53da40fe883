// Measurements of modes and losses, and their uncertainty.

import type { Term } from './term'

export const MEASUREMENT_TERMS = {
  farFieldScan: {
    name: 'Far-field angular scan',
    definition: 'Power against angle far from the end face. It gives the Petermann II diameter.',
  },
  offsetScan: {
    name: 'Transverse-offset scan',
    definition:
      'Power against lateral offset of a known probe. The MFD of the unknown mode follows from the width.',
    formula: 'w_scan² = w_probe² + w_mode² for Gaussians',
  },
  rasterScan: {
    name: 'Raster scan',
    definition: 'Transverse-offset scan over both axes.',
  },
  nearFieldImage: {
    name: 'Near-field image',
    definition: 'Camera image of the intensity at the end face.',
  },
  loopback: {
    name: 'Loopback and cut-back series',
    definition:
      'Loss of waveguides of several lengths. The slope is the propagation loss, the intercept the loss of both facets.',
    formula: 'L = 2 L_facet + α · length',
  },
  lot: {
    name: 'Lot of assemblies',
    definition: 'Measured losses of many assemblies of one design, by assembly and channel.',
  },
  varianceComponents: {
    name: 'Variance components',
    definition:
      'The variance of the losses of a lot, split into batch, station, assembly, channel and the rest, each taken as random.',
  },
  controlChart: {
    name: 'Control chart (individuals and moving range)',
    definition:
      'Values in sequence, with limits that an unchanged process exceeds about three times in a thousand.',
    formula: 'limits = mean ± 3 · mean moving range / 1.128',
  },
  toleranceFactor: {
    name: 'Tolerance factor',
    definition:
      'Factor by which the stated tolerance would have to be scaled to explain a measured lot, with its 95 % interval.',
  },
  repeatedReadings: {
    name: 'Repeated readings',
    definition: 'Several readings of one quantity, for its mean and standard uncertainty.',
  },
  facetLoss: {
    name: 'Loss per facet',
    definition: 'Half the intercept of a loopback series. Assumes equal facets.',
    unit: 'dB',
  },
  probeMfd: {
    name: 'Probe MFD',
    definition: 'Mode-field diameter of the scanned probe fibre.',
    unit: 'µm',
  },
  referencePower: {
    name: 'Reference power',
    definition: 'Power measured without the device. It converts power readings to losses.',
    unit: 'µW',
  },
  pixelSize: {
    name: 'Pixel size in the object plane',
    definition: 'Width of one camera pixel divided by the magnification of the imaging optics.',
    unit: 'µm',
  },
  scaleFactor: {
    name: 'Scale factor',
    definition:
      'True position or angle divided by the indicated one. Its tolerance is the calibration error.',
  },
  detectorExponent: {
    name: 'Detector linearity exponent',
    definition:
      'Exponent p of a detector whose signal is proportional to (optical power)^p. A linear detector has p = 1.',
  },
  noiseFloor: {
    name: 'Noise floor',
    definition: 'Power that the detector reads without light, relative to the peak.',
    unit: 'dB',
  },
  bias: {
    name: 'Bias',
    definition: 'Known systematic error of a result, such as that of a scan that ends at too small an angle.',
  },
  residual: {
    name: 'Residual',
    definition:
      'Measured minus fitted value, usually in per cent of the peak. A pattern in the residuals indicates the shape of the mode or a fault of the scan such as drift, not noise.',
    unit: '%',
  },
  outlier: {
    name: 'Outlier',
    definition: 'Reading that does not agree with the others within their scatter.',
  },
  uncertaintyBudget: {
    name: 'Uncertainty budget',
    definition: 'Contributions to the uncertainty of a result, combined in quadrature (JCGM 100:2008).',
  },
  evaluationType: {
    name: 'Type A, type B',
    definition:
      'Evaluation of an uncertainty from repeated readings (A), or from other knowledge (B) (JCGM 100:2008).',
  },
  standardUncertainty: {
    name: 'Standard uncertainty',
    definition: 'Uncertainty of a result as one standard deviation.',
    symbol: 'u',
  },
  expandedUncertainty: {
    name: 'Expanded uncertainty, k = 2',
    definition: 'Twice the standard uncertainty: about 95 % for a normal distribution.',
    symbol: 'U',
    formula: 'U = k u',
  },
  degreesOfFreedom: {
    name: 'Degrees of freedom',
    definition:
      'Measure of the reliability of an uncertainty: the number of independent readings less the number of fitted values.',
  },
  azimuth: {
    name: 'Azimuth',
    definition: 'Direction of the major axis of an elliptical mode in an image.',
    unit: '°',
    sign: 'From x towards y.',
  },
  stageOrigin: {
    name: 'Stage origin',
    definition:
      'Meaning of position zero of a scan: the working point, or unknown, in which case the peak is used.',
  },
  fileInterpretation: {
    name: 'File interpretation',
    definition:
      'How a file was interpreted: delimiter, decimal mark, columns, units and kind of measurement.',
  },
} as const satisfies Readonly<Record<string, Term>>
