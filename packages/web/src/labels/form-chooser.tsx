import type { SheetGrid } from '@keelrow/breeding/labels';
import type { ReactNode } from 'react';
import { Field } from '../parts/field.tsx';
import { type KeptForm, presets } from './forms.ts';
import { CountBox, LengthBox } from './length-box.tsx';

interface FormChooserProps {
  readonly chosen: KeptForm;
  readonly onChoose: (form: KeptForm) => void;
}

/** What kind of label, how large, on which paper, and how many of each. */
export function FormChooser({ chosen, onChoose }: FormChooserProps): ReactNode {
  const { form } = chosen;
  return (
    <fieldset className="labels-form">
      <legend>Label</legend>
      <div className="labels-presets">
        {presets.map((preset) => (
          <label key={preset.key} className="ticked">
            <input
              type="radio"
              name="preset"
              checked={chosen.preset === preset.key}
              onChange={() =>
                onChoose({ ...chosen, preset: preset.key, form: preset.form, lead: preset.lead })
              }
            />
            {preset.name}
          </label>
        ))}
      </div>
      {form.kind === 'single' ? (
        <div className="labels-sizes">
          <LengthBox
            key={`${chosen.preset} width`}
            label="Width"
            value={form.size.width}
            onChange={(width) => onChoose({ ...chosen, form: { ...form, size: { ...form.size, width } } })}
          />
          <LengthBox
            key={`${chosen.preset} height`}
            label="Height"
            value={form.size.height}
            onChange={(height) => onChoose({ ...chosen, form: { ...form, size: { ...form.size, height } } })}
          />
        </div>
      ) : (
        <GridChooser
          key={chosen.preset}
          grid={form.grid}
          startAt={form.startAt}
          onChoose={(grid, startAt) => onChoose({ ...chosen, form: { kind: 'sheet', grid, startAt } })}
        />
      )}
      <div className="labels-sizes">
        <Field label="Largest on it">
          {(control) => (
            <select
              {...control}
              value={chosen.lead}
              onChange={({ target }) =>
                onChoose({ ...chosen, lead: target.value === 'name' ? 'name' : 'code' })
              }
            >
              <option value="code">the code</option>
              <option value="name">the name</option>
            </select>
          )}
        </Field>
        <CountBox
          label="Labels of each"
          value={chosen.copies}
          most={20}
          onChange={(copies) => onChoose({ ...chosen, copies })}
        />
      </div>
    </fieldset>
  );
}

interface GridChooserProps {
  readonly grid: SheetGrid;
  readonly startAt: number;
  readonly onChoose: (grid: SheetGrid, startAt: number) => void;
}

const lengths = [
  ['marginX', 'Margin left and right'],
  ['marginY', 'Margin above and below'],
  ['gapX', 'Gap between columns'],
  ['gapY', 'Gap between rows'],
] as const;

function GridChooser({ grid, startAt, onChoose }: GridChooserProps): ReactNode {
  const places = grid.rows * grid.columns;
  const change = (part: Partial<SheetGrid>): void => {
    const next = { ...grid, ...part };
    onChoose(next, Math.min(startAt, next.rows * next.columns));
  };
  return (
    <div className="labels-sizes">
      <Field label="Paper">
        {(control) => (
          <select
            {...control}
            value={grid.paper}
            onChange={({ target }) => change({ paper: target.value === 'Letter' ? 'Letter' : 'A4' })}
          >
            <option value="A4">A4</option>
            <option value="Letter">Letter</option>
          </select>
        )}
      </Field>
      <CountBox
        label="First free place"
        value={startAt}
        most={places}
        onChange={(at) => onChoose(grid, at)}
      />
      <CountBox label="Columns" value={grid.columns} most={30} onChange={(columns) => change({ columns })} />
      <CountBox label="Rows" value={grid.rows} most={60} onChange={(rows) => change({ rows })} />
      {lengths.map(([key, name]) => (
        <LengthBox key={key} label={name} value={grid[key]} onChange={(mm) => change({ [key]: mm })} />
      ))}
    </div>
  );
}
