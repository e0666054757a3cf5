import type { ReactNode } from 'react';
import { Icon, type IconName } from '../../parts/icon.tsx';

/** Where the thumb lies: plants beside this one, undo, finding, remarks. */
export function Foot({
  onBefore,
  onAfter,
  onUndo,
  onFind,
  onRemark,
  hasRemark,
}: {
  readonly onBefore: (() => void) | null;
  readonly onAfter: (() => void) | null;
  readonly onUndo: (() => void) | null;
  readonly onFind: () => void;
  readonly onRemark: () => void;
  readonly hasRemark: boolean;
}): ReactNode {
  return (
    <nav className="walk-foot" aria-label="Along the bed">
      <FootButton icon="left" words="Before" name="Plant before" onTouch={onBefore} />
      <FootButton icon="undo" words="Undo" name="Undo the last note" onTouch={onUndo} />
      <FootButton icon="search" words="Find" name="Find a plant" onTouch={onFind} />
      <FootButton
        icon="notes"
        words={hasRemark ? 'Remark ✓' : 'Remark'}
        name="Remark, memo or picture with this note"
        onTouch={onRemark}
      />
      <FootButton icon="right" words="Next" name="Next plant" onTouch={onAfter} />
    </nav>
  );
}

function FootButton({
  icon,
  words,
  name,
  onTouch,
}: {
  readonly icon: IconName;
  readonly words: string;
  readonly name: string;
  readonly onTouch: (() => void) | null;
}): ReactNode {
  return (
    <button
      type="button"
      aria-label={`${words}: ${name}`}
      disabled={onTouch === null}
      onClick={() => onTouch?.()}
    >
      <Icon name={icon} size={26} />
      {words}
    </button>
  );
}
