// What the interface must do, as it is agreed before any part is chosen.

/** Which figure of the budget has to stay within the loss limit. */
export const LOSS_BASES = ['nominal', 'root sum square', 'worst corner', 'percentile'] as const
