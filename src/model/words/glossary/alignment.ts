// Misalignments, and how well an assembly holds them.

import type { Term } from './term'

export const ALIGNMENT_TERMS = {
  misalignment: {
    name: 'Misalignment',
    definition:
      'Pose error of the fibre side of a joint relative to the chip side: offset, gap, tilt and roll.',
  },
  lateralOffset: {
    name: 'Lateral offset x, y',
    definition:
      'Displacement of the fibre from the axis of the chip mode: x along the chip surface, y normal to it.',
    unit: 'µm',
    sign: 'Positive moves the fibre towards +x or +y.',
    symbol: 'x, y',
    formula: 'η = η₀ exp[−2d² / (w₁² + w₂²)] for round modes',
  },
  tilt: {
    name: 'Tilt x, y',
    definition:
      'Angle between the beam and the axis, set by rotation about the centre of the end face: x is yaw, y is pitch. At zero the refracted beam is in line with the chip mode.',
    unit: '°',
    sign: 'Positive makes the beam slope towards +x or +y.',
    symbol: 'θ',
    formula: 'η = η₀ exp[−2(πn w₁w₂θ / λ)² / (w₁² + w₂²)] for round modes',
  },
  roll: {
    name: 'Roll',
    definition:
      'Rotation of the fibre about the z axis. It matters for elliptical modes, polarisation and arrays.',
    unit: '°',
    sign: 'Positive turns from x to y.',
  },
  endFaceAngle: {
    name: 'End-face angle',
    definition: 'Angle of a polished or etched face from the plane normal to the waveguide, such as 8°.',
    unit: '°',
    sign: 'Equal signs on both sides mean parallel faces.',
  },
  angledIn: {
    name: 'Plane of the face angles',
    definition: 'Plane in which the end faces are angled: x lies in the chip plane, y normal to it.',
  },
  pointingAngle: {
    name: 'Pointing angle',
    definition: 'Tilt of the fibre axis that follows the beam refracted at angled faces.',
    unit: '°',
    formula: 'n₁ sin θ₁ = n₂ sin θ₂ (Snell)',
  },
  decentre: {
    name: 'Decentre',
    definition: 'Lateral displacement of a lens from the axis of the beam.',
    unit: 'µm',
    sign: 'Positive towards +x or +y.',
  },
  alignmentTolerance: {
    name: 'Alignment tolerance',
    definition:
      'Displacement on one axis from the working point that causes a stated excess loss, such as 1 dB.',
    unit: 'µm or °',
  },
  stationAccuracy: {
    name: 'Alignment-station accuracy',
    definition: 'Position error left by the alignment equipment, as lateral, axial and angular ± values.',
    unit: 'µm or °',
    sign: 'Half width.',
  },
  activeAlignment: {
    name: 'Active alignment',
    definition: 'Alignment on measured power. A residual misalignment remains.',
  },
  passivePlacement: {
    name: 'Passive placement',
    definition: 'Placement by reference marks or stops, without measuring power.',
  },
  residualMisalignment: {
    name: 'Residual misalignment',
    definition: 'Misalignment that remains after active alignment: the ± of an actively aligned axis.',
    unit: 'µm or °',
  },
  cureShift: {
    name: 'Cure shift',
    definition: 'Displacement of the fibre while the adhesive cures, after alignment.',
    unit: 'µm',
    sign: 'Towards +x, +y or a wider gap.',
  },
  holderDrift: {
    name: 'Holder drift',
    definition: 'Later displacement of a fibre in a mechanical holder.',
    unit: 'µm',
    sign: 'Towards +x, +y or a wider gap.',
  },
  mount: {
    name: 'Mount',
    definition:
      'Two stacks of material from a common anchor, one to each end face. Their differential expansion shifts the joint with temperature.',
  },
  cte: {
    name: 'Coefficient of thermal expansion (CTE)',
    definition: 'Relative change of length per kelvin.',
    unit: 'ppm/K',
    symbol: 'α',
    formula: 'ΔL = α L ΔT',
  },
  operatingTemperature: {
    name: 'Operating temperature',
    definition:
      'Range in which the module must meet its requirements. Stated lengths apply at the assembly temperature.',
    unit: '°C',
  },
} as const satisfies Readonly<Record<string, Term>>
