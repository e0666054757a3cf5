import type { ReactNode } from 'react';
import { Page } from '../parts/page.tsx';
import { GardenHeld } from './garden-held.tsx';
import './phone-screen.css';
import { RefusedNotes } from './refused-notes.tsx';
import { ThisDevice } from './this-device.tsx';
import { WaitingList } from './waiting-list.tsx';

/** What lies on this device and is not in the records yet, and whether the device can be trusted with it. */
export function PhoneScreen(): ReactNode {
  return (
    <Page
      title="This device"
      line="What waits here to be handed over, and what the garden's records said last."
    >
      <div className="phone-screen">
        <WaitingList />
        <RefusedNotes />
        <GardenHeld />
        <ThisDevice />
      </div>
    </Page>
  );
}
