declare module 'plotly.js/lib/core' {
  interface PlotlyCore {
    register(modules: readonly unknown[]): void
    react(
      element: HTMLElement,
      data: readonly unknown[],
      layout: Readonly<Record<string, unknown>>,
      config?: Readonly<Record<string, unknown>>,
    ): Promise<unknown>
    purge(element: HTMLElement): void
  }
  const plotly: PlotlyCore
  export default plotly
}

declare module 'plotly.js/lib/contour' {
  const contour: unknown
  export default contour
}

declare module 'plotly.js/lib/bar' {
  const bar: unknown
  export default bar
}

declare module 'plotly.js/lib/heatmap' {
  const heatmap: unknown
  export default heatmap
}
