// How figures look on paper and in a file of their own; the page of a candidate styles its drawing itself.

export const FIGURE_STYLE = `
svg.chart, svg.drawn { font-family: "Source Sans 3 Variable", "Source Sans 3", system-ui, sans-serif; font-size: 13px; fill: #1c2126; }
.chart-frame, .chart-axis { fill: none; stroke: #1c2126; stroke-width: 1; }
.chart-grid { stroke: #dedacd; stroke-width: 1; }
.chart-curve { fill: none; stroke: #0b5a8a; stroke-width: 2; }
.chart-curve-2 { fill: none; stroke: #1c2126; stroke-width: 1.5; stroke-dasharray: 7 4; }
.chart-curve-3 { fill: none; stroke: #1c2126; stroke-width: 1.5; stroke-dasharray: 2 3; }
.chart-band { fill: #e4e1d6; stroke: none; }
.chart-limit { stroke: #1c2126; stroke-width: 1.5; stroke-dasharray: 9 3; }
.chart-mark { stroke: #1c2126; stroke-width: 1; stroke-dasharray: 2 3; }
.chart-bar { fill: #0b5a8a; stroke: #1c2126; stroke-width: 0.5; }
.chart-bar-light { fill: #dedacd; stroke: #1c2126; stroke-width: 0.5; }
.chart-bar-dark { fill: #1c2126; stroke: #1c2126; stroke-width: 0.5; }
.chart-cross { fill: none; stroke: #1c2126; stroke-width: 2; }
.chart-box { fill: none; stroke: #1c2126; stroke-width: 1.5; stroke-dasharray: 6 4; }
.chart-contour { fill: none; stroke: #0b5a8a; stroke-width: 1.25; }
image ~ .chart-contour { stroke: #14171a; stroke-width: 0.75; }
.chart-contour-beside { fill: none; stroke: #ffffff; stroke-width: 1; stroke-dasharray: 1 3; }
.chart-halo { paint-order: stroke; stroke: #ffffff; stroke-width: 4px; stroke-linejoin: round; }
.drawn-body, .drawn-lens, .drawn rect { fill: #eef1f0; stroke: #1c2126; stroke-width: 1; }
.drawn line { stroke: #1c2126; }
.drawn .drawn-mode { fill: none; stroke: #0b5a8a; stroke-dasharray: 5 4; }
.drawn .drawn-guide { fill: #1c2126; stroke: none; }
.drawn .drawn-sheet { fill: #ffffff; stroke: #c9c5b8; }
.drawn .drawn-device { fill: none; stroke-dasharray: 6 3; }
.drawn-beam { fill: #0b5a8a; fill-opacity: 0.25; stroke: #0b5a8a; }
.drawn-receiver { fill: none; stroke: #1c2126; stroke-dasharray: 6 4; }
.drawn .drawn-axis { fill: none; stroke: #565d64; stroke-dasharray: 14 4 2 4; }
.drawn .drawn-bar { stroke-width: 3; }
.drawn-dimension { fill: none; stroke: #1c2126; }
.drawn .drawn-low { dominant-baseline: text-after-edge; }
.drawn .drawn-title { dominant-baseline: text-before-edge; }
.drawn-label { paint-order: stroke; stroke: #ffffff; stroke-width: 4px; stroke-linejoin: round; }
`
