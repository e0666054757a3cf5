import { type KindName, kindOf, labelOf } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { ComboBox, Input, ListBox, ListBoxItem, Popover } from 'react-aria-components';
import { recordsQuery } from '../api/queries.ts';
import './record-picker.css';

interface PickerProps {
  readonly kind: KindName;
  readonly control: { id: string; 'aria-describedby': string | undefined; 'aria-invalid': true | undefined };
  readonly value: string;
  readonly onType: (code: string) => void;
}

/** Another record by its code: proposes what matches as one types, and leaves what was typed as it is. */
export function RecordPicker({ kind, control, value, onType }: PickerProps): ReactNode {
  const [open, setOpen] = useState(false);
  // Several possible parents stand in one box, A:0.5;B:0.3: the last of them is the one being typed.
  const cut = value.lastIndexOf(';') + 1;
  const search = value
    .slice(cut)
    .replace(/:[0-9.,]*$/, '')
    .trim();
  const found = useQuery({ ...recordsQuery(kind, search, 0, 12), enabled: open });
  const items = (found.data?.rows ?? []).map((row) => ({
    id: labelOf(kind, row),
    name: typeof row.name === 'string' && row.name !== labelOf(kind, row) ? row.name : '',
  }));
  return (
    <ComboBox
      aria-label={kindOf(kind).one}
      allowsCustomValue
      menuTrigger="input"
      items={items}
      inputValue={value}
      onInputChange={onType}
      onOpenChange={setOpen}
      onFocus={() => setOpen(true)}
      onSelectionChange={(key) => {
        if (key !== null) onType(value.slice(0, cut) + String(key));
      }}
      className="record-picker"
      defaultFilter={() => true}
    >
      <Input {...withoutUndefined(control)} />
      <Popover className="record-picker-list" offset={2}>
        <ListBox<{ id: string; name: string }>>
          {(item) => (
            <ListBoxItem id={item.id} textValue={item.id} className="record-picker-item">
              <strong>{item.id}</strong> {item.name}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}

const withoutUndefined = (control: PickerProps['control']): Record<string, string | true> =>
  Object.fromEntries(
    Object.entries(control).filter((entry): entry is [string, string | true] => entry[1] !== undefined),
  );
