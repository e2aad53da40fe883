// The parts of plotly.js in use, as a chunk of their own that is loaded when the first figure is shown.

import bar from 'plotly.js/lib/bar'
import contour from 'plotly.js/lib/contour'
import plotly from 'plotly.js/lib/core'
import heatmap from 'plotly.js/lib/heatmap'

plotly.register([bar, contour, heatmap])

export { plotly }
