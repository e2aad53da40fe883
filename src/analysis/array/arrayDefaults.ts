// What an array run takes where nothing else is asked for; apart from the run, so that screens need not load that.

/** Arrays simulated. */
export const ARRAY_DEFAULTS = { samples: 4096 } as const
