import type { TraitShown } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { colourOnScreen } from '../parts/colour-on-screen.ts';
import { Dialog } from '../parts/dialog.tsx';
import { useUnits } from '../parts/measure.ts';
import { plainNumber } from '../parts/words.ts';
import { LimitForm } from './limit-form.tsx';
import { limitInWords } from './limit-words.ts';
import type { Limit } from './limits.ts';

interface ListProps {
  readonly brief: string;
  readonly limits: readonly Limit[];
  readonly traits: readonly TraitShown[];
}

/** Every limit of a brief in words, musts first; each is a button that opens it to be changed. */
export function LimitList({ brief, limits, traits }: ListProps): ReactNode {
  const units = useUnits();
  const [open, setOpen] = useState<Limit | 'new' | null>(null);
  return (
    <>
      <ul className="limits">
        {limits.map((limit) => {
          const trait = traits.find(({ code }) => code === limit.trait);
          return (
            <li key={limit.id}>
              <button type="button" className="limit" onClick={() => setOpen(limit)}>
                <span className={limit.must ? 'limit-mark limit-must' : 'limit-mark'}>
                  {limit.must ? 'must' : `wish ${plainNumber(limit.weight ?? 1)}`}
                </span>
                <span>
                  <strong>{trait?.name ?? limit.trait}</strong>{' '}
                  {trait ? limitInWords(limit, trait, units) : 'is no trait any more'}
                  {limit.colour && (
                    <span
                      className="limit-colour"
                      style={{ background: colourOnScreen(limit.colour) }}
                      title={`L ${limit.colour.l} a ${limit.colour.a} b ${limit.colour.b}`}
                    />
                  )}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
      <div>
        <Button icon="plus" onClick={() => setOpen('new')}>
          Add a limit
        </Button>
      </div>
      {open !== null && (
        <Dialog title={open === 'new' ? 'Add a limit' : 'Change the limit'} onClose={() => setOpen(null)}>
          <LimitForm
            brief={brief}
            limit={open === 'new' ? null : open}
            traits={traits}
            onDone={() => setOpen(null)}
          />
        </Dialog>
      )}
    </>
  );
}
