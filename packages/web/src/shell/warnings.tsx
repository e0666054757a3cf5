import { type ReactNode, useState } from 'react';
import { IconButton } from '../parts/button.tsx';
import { Icon } from '../parts/icon.tsx';
import './warnings.css';

/** Things the owner should know; each can be put away until the page is opened again. */
export function Warnings({ warnings }: { readonly warnings: readonly string[] }): ReactNode {
  const [away, setAway] = useState<readonly string[]>([]);
  const shown = warnings.filter((warning) => !away.includes(warning));
  if (shown.length === 0) return null;
  return (
    <ul className="warnings" aria-label="To heed">
      {shown.map((warning) => (
        <li key={warning}>
          <Icon name="heed" size={18} />
          <span>{warning}</span>
          <IconButton
            icon="close"
            name={`Put away: ${warning}`}
            onClick={() => setAway((already) => [...already, warning])}
          />
        </li>
      ))}
    </ul>
  );
}
