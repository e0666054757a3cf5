import { type ErrorComponentProps, useRouter } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Page } from '../parts/page.tsx';
import { Problem } from '../parts/states.tsx';

/** A screen that failed to draw. Notes on their way are kept outside the screens and are not lost by this. */
export function ErrorScreen({ error, reset }: ErrorComponentProps): ReactNode {
  const router = useRouter();
  return (
    <Page
      title="This page could not be drawn"
      line="What was stored is safe; notes you typed are still waiting."
    >
      <Problem
        error={error}
        again={() => {
          reset();
          void router.invalidate();
        }}
      />
    </Page>
  );
}
