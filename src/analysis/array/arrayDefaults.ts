// Apart from the run itself, which a screen loads only with the first one.

export const ARRAY_DEFAULTS = { samples: 4096 } as const
