// The coating of a face: what it reflects at the project's wavelength, or the thin films it is made of.

export type { Coating, Film } from '../schema/coating'
