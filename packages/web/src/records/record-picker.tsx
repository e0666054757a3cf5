import { type KindName, labelOf } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, type ReactNode, useState } from 'react';
import { recordsQuery } from '../api/queries.ts';
import './record-picker.css';

interface PickerProps {
  readonly kind: KindName;
  readonly control: {
    readonly id: string;
    readonly 'aria-describedby': string | undefined;
    readonly 'aria-invalid': true | undefined;
  };
  readonly value: string;
  readonly onType: (code: string) => void;
}

const most = 10;

/**
 * Another record by its code: proposes what matches as one types, and leaves what was typed as it is.
 * The keys and roles are those of the editable combobox with list autocomplete in the ARIA Authoring Practices.
 * The list lies inside the form, so that it is seen and reached within a dialog.
 */
export function RecordPicker({ kind, control, value, onType }: PickerProps): ReactNode {
  const [open, setOpen] = useState(false);
  const [active, setActive] = useState(-1);
  // Several possible parents stand in one box, A:0.5;B:0.3: the last of them is the one being typed.
  const cut = value.lastIndexOf(';') + 1;
  const search = value
    .slice(cut)
    .replace(/:[0-9.,]*$/, '')
    .trim();
  const found = useQuery({ ...recordsQuery(kind, search, 0, most), enabled: open });
  const options = (found.data?.rows ?? []).map((row) => {
    const code = labelOf(kind, row);
    return { id: row.id, code, name: typeof row.name === 'string' && row.name !== code ? row.name : '' };
  });
  const shown = open && options.length > 0;
  const list = `${control.id}-list`;

  const close = (): void => {
    setOpen(false);
    setActive(-1);
  };
  const take = (code: string): void => {
    onType(value.slice(0, cut) + code);
    close();
  };
  const byKey = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      setOpen(true);
      const step = event.key === 'ArrowDown' ? 1 : -1;
      if (options.length > 0)
        setActive((now) => (now + step + options.length + (now < 0 && step < 0 ? 1 : 0)) % options.length);
      return;
    }
    const chosen = options[active];
    if (event.key === 'Enter' && shown && chosen) {
      event.preventDefault();
      take(chosen.code);
    }
    if (event.key === 'Escape' && shown) {
      // This Escape closes the list alone, not the dialog around it.
      event.preventDefault();
      close();
    }
  };

  return (
    <div className="record-picker">
      <input
        {...control}
        role="combobox"
        aria-autocomplete="list"
        aria-expanded={shown}
        aria-controls={list}
        aria-activedescendant={shown && options[active] ? `${list}-${active}` : undefined}
        autoComplete="off"
        spellCheck={false}
        value={value}
        onChange={(event) => {
          onType(event.target.value);
          setOpen(true);
          setActive(-1);
        }}
        onBlur={close}
        onKeyDown={byKey}
      />
      <div id={list} role="listbox" aria-label="Proposals" hidden={!shown} className="record-picker-list">
        {options.map(({ id, code, name }, index) => (
          <div
            key={id}
            id={`${list}-${index}`}
            role="option"
            aria-selected={index === active}
            tabIndex={-1}
            className="record-picker-item"
            // Before the box loses focus, which would close the list.
            onPointerDown={(event) => {
              event.preventDefault();
              take(code);
            }}
          >
            <strong>{code}</strong> {name}
          </div>
        ))}
      </div>
    </div>
  );
}
