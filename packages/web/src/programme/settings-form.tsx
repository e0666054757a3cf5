import { isKindName, kindOf, type ProgrammeSettings, patternProblem } from '@keelrow/breeding/facts';
import { type FormEvent, type ReactNode, useState } from 'react';
import { queryClient } from '../api/queries.ts';
import { send } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { Problem } from '../parts/states.tsx';
import { capital } from '../parts/words.ts';

const timeZones: readonly string[] = Intl.supportedValuesOf('timeZone');

export function SettingsForm({ settings }: { readonly settings: ProgrammeSettings }): ReactNode {
  const [typed, setTyped] = useState(settings);
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);
  const changed = JSON.stringify(typed) !== JSON.stringify(settings);
  const wrong =
    typed.name.trim() === '' || Object.values(typed.codePatterns).some((pattern) => patternProblem(pattern));

  const store = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setBusy(true);
    setError(null);
    try {
      await send('PATCH', 'programme', typed);
      await queryClient.invalidateQueries();
    } catch (problem) {
      setError(problem);
    } finally {
      setBusy(false);
    }
  };

  return (
    <form className="settings" onSubmit={(event) => void store(event)}>
      <Field label="Name of the garden" problem={typed.name.trim() === '' ? 'It needs a name.' : null}>
        {(control) => (
          <input
            {...control}
            value={typed.name}
            onChange={(event) => setTyped({ ...typed, name: event.target.value })}
          />
        )}
      </Field>
      <Field label="Time zone" hint="Calendar dates are meant in the garden’s own time.">
        {(control) => (
          <select
            {...control}
            value={typed.timeZone}
            onChange={(event) => setTyped({ ...typed, timeZone: event.target.value })}
          >
            {[...new Set([typed.timeZone, 'UTC', ...timeZones])].map((zone) => (
              <option key={zone} value={zone}>
                {zone.replaceAll('_', ' ')}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label="Units" hint="On screens and in files; what is stored does not change.">
        {(control) => (
          <select
            {...control}
            value={typed.units}
            onChange={(event) => setTyped({ ...typed, units: event.target.value === 'us' ? 'us' : 'metric' })}
          >
            <option value="metric">metric (cm, g, °C)</option>
            <option value="us">US customary (in, oz, °F)</option>
          </select>
        )}
      </Field>
      <fieldset className="patterns">
        <legend>Patterns of new codes</legend>
        <p className="small soft">
          {
            '{year} and {yy}: the year; {serial} or {serial:3}: the next free number; {of}: the code of what it belongs to.'
          }{' '}
          Codes that are there already stay as they are.
        </p>
        {Object.entries(typed.codePatterns).map(([kind, pattern]) => (
          <Field
            key={kind}
            label={isKindName(kind) ? capital(kindOf(kind).many) : kind}
            problem={patternProblem(pattern)}
          >
            {(control) => (
              <input
                {...control}
                spellCheck={false}
                value={pattern}
                onChange={(event) =>
                  setTyped({ ...typed, codePatterns: { ...typed.codePatterns, [kind]: event.target.value } })
                }
              />
            )}
          </Field>
        ))}
      </fieldset>
      {error !== null && <Problem error={error} />}
      <div>
        <Button type="submit" look="main" disabled={!changed || wrong || busy}>
          {busy ? 'Storing' : 'Store the settings'}
        </Button>
      </div>
    </form>
  );
}
