import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { Icon } from '../parts/icon.tsx';
import { counted } from '../parts/words.ts';
import { usePhoneState } from '../phone/use-phone.ts';
import { takeNewVersion, useUpdateReady } from './app-update.ts';

/** What is wrong on this device, each in a line, and a new version where there is one. */
export function DeviceLines(): ReactNode {
  const { waiting, refused, trouble, shutOut, online, persisted } = usePhoneState();
  const newVersion = useUpdateReady();
  const away = !online && !shutOut;
  const lines = [
    shutOut && trouble,
    away && 'No network: notes are kept on this device and handed over later.',
    !away && !shutOut && waiting > 0 && trouble && `Not handed over: ${trouble}`,
    waiting > 0 &&
      persisted === false &&
      'This browser did not promise to keep notes for long: hand over soon, or put Keelrow on the home screen.',
  ].filter((line) => typeof line === 'string');
  if (lines.length === 0 && refused === 0 && !newVersion) return null;
  return (
    <ul className="warnings" aria-label="On this device">
      {lines.map((line) => (
        <li key={line}>
          <Icon name="heed" size={18} />
          <span role="status">{line}</span>
        </li>
      ))}
      {refused > 0 && (
        <li>
          <Icon name="heed" size={18} />
          <span>
            {counted(refused, 'note')} came back refused. <Link to="/phone">See why</Link>
          </span>
        </li>
      )}
      {newVersion && (
        <li>
          <span role="status">A new version of Keelrow is here. What waits is kept.</span>
          <Button onClick={takeNewVersion}>Change to it</Button>
        </li>
      )}
    </ul>
  );
}
