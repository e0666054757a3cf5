import '@fontsource/besley/latin-600.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { queryClient } from './api/queries.ts';
import './looks/tokens.css';
import './looks/base.css';
import { startHandingOver } from './phone/triggers.ts';
import { router } from './routes.tsx';
import { startUpdates } from './shell/app-update.ts';
import { startInstallOffer } from './shell/install.ts';
import { applyTheme, themeChosen } from './shell/theme.ts';

applyTheme(themeChosen());

createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  </StrictMode>,
);

startInstallOffer();
startHandingOver();
// After the first screen: what is kept for later must not hold it up.
addEventListener('load', () => void startUpdates());
