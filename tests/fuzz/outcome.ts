/** What came of one mutant: refused by name, answered in finite numbers, or neither. */
export type Outcome =
  | { readonly kind: 'refused' }
  | { readonly kind: 'finite' }
  | { readonly kind: 'fault'; readonly faults: readonly string[] }
