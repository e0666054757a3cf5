import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { useInstallOffer, wayToInstall } from '../shell/install.ts';
import { usePhoneState } from './use-phone.ts';

const ways = {
  ios: 'On the home screen: in Safari tap Share (the square with an arrow), then Add to Home Screen, and open Keelrow from there. Safari clears pages that are not on the home screen after seven days without a visit.',
  android:
    'On the home screen: open the browser’s menu (three dots), then Install app or Add to Home screen.',
  desk: 'As an app of its own: choose Install in the address bar or the browser’s menu, where it has one.',
} as const;

/** Whether notes are safe here, how to put the app on the home screen, and which build this is. */
export function ThisDevice(): ReactNode {
  const { persisted } = usePhoneState();
  const install = useInstallOffer();
  const way = wayToInstall();
  const lacking = [
    !isSecureContext &&
      'This page was not loaded over a trusted connection (https): without one there is no camera and the app does not open without a network.',
    isSecureContext &&
      !('serviceWorker' in navigator) &&
      'This browser cannot keep the app for use without a network; leave its private mode or use another.',
  ].filter((line) => typeof line === 'string');
  return (
    <section aria-labelledby="device-title">
      <h2 id="device-title">This device</h2>
      <ul className="lines">
        {lacking.map((line) => (
          <li key={line} className="field-problem">
            {line}
          </li>
        ))}
        <li>
          {persisted === true
            ? 'The browser has promised to keep notes until they are handed over.'
            : persisted === false
              ? 'The browser did not promise to keep notes when it runs out of room: hand over soon, put Keelrow on the home screen, or save to a file.'
              : 'The browser will be asked to keep notes when the first one is entered.'}
        </li>
        {way && <li>{ways[way]}</li>}
        <li>Build {__BUILD__}</li>
      </ul>
      {install && (
        <p className="phone-buttons">
          <Button onClick={install}>Put Keelrow on this device</Button>
        </p>
      )}
    </section>
  );
}
