import '@fontsource/besley/latin-600.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { queryClient } from './api/queries.ts';
import './looks/tokens.css';
import './looks/base.css';
import { router } from './routes.tsx';
import { applyTheme, themeChosen } from './shell/theme.ts';

applyTheme(themeChosen());

createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  </StrictMode>,
);
