/** The module that package.json names. */
export const libraryPath: string
/** Whether the bundle is there and newer than everything that it is made of. */
export function isFresh(): boolean
/** Bundles the library; `types` also declares what is in it. */
export function buildLibrary(options: { readonly types: boolean }): Promise<void>
