import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Icon, type IconName } from '../parts/icon.tsx';
import './navigation.css';

interface Screen {
  readonly to: string;
  readonly name: string;
  readonly icon: IconName;
  /** Work for a desk: left out of a phone's few tabs. */
  readonly atDesk?: boolean;
}

const screens = [
  { to: '/plants', name: 'Plants', icon: 'plants' },
  { to: '/walk', name: 'Walk', icon: 'walk' },
  { to: '/notes', name: 'Notes', icon: 'notes' },
  { to: '/beds', name: 'Beds', icon: 'beds' },
  { to: '/compare', name: 'Compare', icon: 'compare' },
  { to: '/briefs', name: 'Briefs', icon: 'briefs' },
  { to: '/import', name: 'Import', icon: 'import' },
  { to: '/programme', name: 'Programme', icon: 'programme' },
] as const satisfies readonly Screen[];

/** The index of the ledger: tabs along its upper edge, on a phone along the lower one where the thumb is. */
export function Navigation(): ReactNode {
  return (
    <nav className="navigation" aria-label="Screens">
      <ul>
        {screens.map(({ to, name, icon, ...screen }) => (
          <li key={to} className={'atDesk' in screen ? 'at-desk' : undefined}>
            <Link to={to} className="tab" activeProps={{ 'aria-current': 'page' }}>
              <Icon name={icon} size={20} />
              <span>{name}</span>
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
