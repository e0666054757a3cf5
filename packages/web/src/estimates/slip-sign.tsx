import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Icon } from '../parts/icon.tsx';
import './slip-sign.css';

interface SlipProps {
  readonly trait: string;
  /** How many notes of the genet lie far from all others. */
  readonly slips: number;
  /** Where there is little room: `1 slip?`. */
  readonly short?: boolean;
}

/** `1 note looks like a slip`, `2 notes look like slips`. */
const slipWords = (slips: number): string =>
  slips === 1 ? '1 note looks like a slip' : `${slips} notes look like slips`;

/** A warning beside an estimate, which leads to the list of such notes; nothing where there are none. */
export function SlipSign({ trait, slips, short = false }: SlipProps): ReactNode {
  if (slips === 0) return null;
  const words = slipWords(slips);
  return (
    <Link
      to="/traits/$trait"
      params={{ trait }}
      hash="slips"
      preload={false}
      className="slip-sign"
      title={words}
    >
      <Icon name="heed" size={14} />
      {short ? (
        <>
          {slips} {slips === 1 ? 'slip' : 'slips'}?<span className="for-readers-only"> {words}</span>
        </>
      ) : (
        words
      )}
    </Link>
  );
}
