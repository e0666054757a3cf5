import type { PhoneLetIn } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Icon } from '../parts/icon.tsx';
import { QrCode } from './qr-code.tsx';
import { minutesAndSeconds, useSecondsUntil } from './time-left.ts';

interface WayInProps {
  readonly until: string;
  readonly link: string;
  readonly helper: string | null;
  readonly fingerprint: string | null;
  /** The phone that came in by it. */
  readonly used: PhoneLetIn | null;
  readonly onAgain: () => void;
  readonly onDone: () => void;
}

/** The code that lets one phone in, how long it is good for, and that it was used. */
export function WayIn({ until, link, helper, fingerprint, used, onAgain, onDone }: WayInProps): ReactNode {
  const left = useSecondsUntil(until);
  const [first, setFirst] = useState(false);
  if (used !== null)
    return (
      <div className="way-in" role="status">
        <p className="way-in-used">
          <Icon name="done" />
          <strong>{used.code}</strong> is in. The code is used up.
        </p>
        <Button look="main" onClick={onDone}>
          Done
        </Button>
      </div>
    );
  if (left === 0)
    return (
      <div className="way-in" role="status">
        <p>The code’s time is over and no phone came in by it.</p>
        <p className="phone-actions">
          <Button onClick={onDone}>Leave it</Button>
          <Button look="main" onClick={onAgain}>
            Show a new code
          </Button>
        </p>
      </div>
    );
  if (first && helper !== null)
    return (
      <div className="way-in">
        <p>
          <strong>First: trust.</strong> The phone does not know this computer yet. Point its camera at this
          code; a page on the phone leads through it, once for each phone.
        </p>
        <QrCode text={helper} name="Code that opens the page about trusting this computer" />
        <p className="small soft">Or type {helper}</p>
        {fingerprint !== null && (
          <p className="small">
            The fingerprint that the phone shows must be <code className="way-in-link">{fingerprint}</code>
          </p>
        )}
        <p className="phone-actions">
          <Button look="main" onClick={() => setFirst(false)}>
            It is done: show the code that lets it in
          </Button>
        </p>
      </div>
    );
  return (
    <div className="way-in">
      <p>Point the phone’s camera at the code and open what it offers.</p>
      <QrCode text={link} name="Code that lets one phone in" />
      <p>
        Lets one phone in, once, within <span className="way-in-left">{minutesAndSeconds(left)}</span>.
      </p>
      <details className="fold">
        <summary>The phone has no camera</summary>
        <p className="way-in-link">{link}</p>
      </details>
      <p className="phone-actions">
        <Button onClick={onDone}>Leave it</Button>
        {helper !== null && (
          <Button onClick={() => setFirst(true)}>The phone warns of the address, or was never here</Button>
        )}
      </p>
    </div>
  );
}
