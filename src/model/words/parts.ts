// The parts a project knows: fibres, chip facets, gap media, converters and lenses.

export type {
  ConverterEntry,
  ConverterKind,
  FacetEntry,
  FibreEntry,
  FibreMode,
  LensEntry,
  LensedTipEntry,
  LensShape,
  MediumEntry,
  TaperChipEntry,
  TmMode,
} from '../schema/parts'

export const MEDIUM_STATES = ['gas', 'gel', 'adhesive'] as const
