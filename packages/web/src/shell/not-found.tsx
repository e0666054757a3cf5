import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Page } from '../parts/page.tsx';

export function NotFound(): ReactNode {
  return (
    <Page title="No such page" line="The address leads nowhere in this programme.">
      <p>
        It may have been typed with a slip, or what it named was never here.{' '}
        <Link to="/plants">See the plants</Link> and search from there.
      </p>
    </Page>
  );
}
