import './styles/base.css';
import './styles/bench.css';
import './styles/rule.css';
import './styles/narrow.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { publishHandle } from './test-handle.ts';

publishHandle();
createRoot(document.getElementById('bench') as HTMLElement).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
