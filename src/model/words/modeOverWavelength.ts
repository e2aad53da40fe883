// How a mode known by its diameters changes with wavelength. Only the change counts: at the project's wavelength the
// diameters are those of the part.

export type { ModeOverWavelength, ModePoint } from '../schema/modeOverWavelength'
