import '@fontsource-variable/source-sans-3/index.css'
import './ui/css/index.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app/App'
import { startTheme } from './store/theme'

const root = document.getElementById('root')
if (root === null) throw new Error('the page has no root element')
startTheme() // before the first picture, which would otherwise be of the system's theme
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
