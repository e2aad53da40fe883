import '@fontsource-variable/source-sans-3/index.css'
import './panels/app/app.css'
import './panels/app/tables.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './panels/app/App'

const root = document.getElementById('root')
if (root === null) throw new Error('the page has no root element')
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
