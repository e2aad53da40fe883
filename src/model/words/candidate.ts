// A candidate: one complete interface from fibre to waveguide, as a chain of elements along the path.
// Guides (fibre, stub, taper chip, facet) are at even positions, the joins between them (splice, gap, relay) at odd ones.

export const FACE_PLANES = ['x', 'y'] as const
export const POINTINGS = ['refracted', 'parallel'] as const
export const POSE_AXES = ['offsetX', 'offsetY', 'gap', 'tiltX', 'tiltY', 'roll'] as const
export type PoseAxis = (typeof POSE_AXES)[number]
/** Degrees of freedom of the fibre side that can be aligned through lenses; `offsetZ` is along the light. */
export const RELAY_ALIGNED = ['offsetX', 'offsetY', 'offsetZ', 'tiltX', 'tiltY', 'roll'] as const
/** The same of one lens. */
export const LENS_ALIGNED = ['offsetX', 'offsetY', 'offsetZ', 'tiltX', 'tiltY'] as const
/** What a station moves in a relay, in the order in which it does so unless another is stated. */
export const RELAY_MEMBERS = ['lens1', 'lens2', 'guide'] as const
export type RelayMember = (typeof RELAY_MEMBERS)[number]
/** How an axis comes to its place: optimised on coupled power, or placed by marks and stops. */
const AXIS_SETTINGS = ['passive', 'active'] as const
export type AxisSetting = (typeof AXIS_SETTINGS)[number]
/** Settings that the search for the best leaves alone. */
export const SETTINGS = ['gap', 'frontGap', 'backGap', 'offsetX', 'offsetY', 'tiltX', 'tiltY'] as const
export type SettingName = (typeof SETTINGS)[number]
/** Properties of parts that the search leaves alone unless they are set free: a tip's spot, a relay's magnification. */
export const PART_SETTINGS = ['spot', 'magnification'] as const
export type PartSettingName = (typeof PART_SETTINGS)[number]
export const STUB_FORMS = ['single', 'array'] as const
export type StubForm = (typeof STUB_FORMS)[number]

export const USER_LINE_KINDS = [
  'connector',
  'propagation',
  'device',
  'clipping',
  'absorption',
  'user line',
] as const
