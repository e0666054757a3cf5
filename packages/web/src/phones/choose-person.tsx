import type { PersonListed, Role } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Field } from '../parts/field.tsx';

/** A person of the list by id, or one to be added (id empty). */
export interface PersonChosen {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly role: Role;
}

export const newPerson = { code: '', name: '', role: 'recorder' } as const satisfies Omit<PersonChosen, 'id'>;

const roles: readonly (readonly [Role, string])[] = [
  ['recorder', 'Recorder: notes, pictures and proposed decisions'],
  ['owner', 'Owner: everything'],
  ['guest', 'Guest: reads bloom and plants'],
];

export function ChoosePerson({
  people,
  chosen,
  onChoose,
}: {
  readonly people: readonly PersonListed[];
  readonly chosen: PersonChosen;
  readonly onChoose: (chosen: PersonChosen) => void;
}): ReactNode {
  const here = people.filter(({ leftOn }) => leftOn === null);
  return (
    <>
      <Field label="Who carries it">
        {(control) => (
          <select
            {...control}
            value={chosen.id}
            onChange={(event) => onChoose({ ...chosen, id: event.target.value })}
          >
            <option value="">Somebody new</option>
            {here.map(({ id, code, name, role }) => (
              <option key={id} value={id}>
                {[name ? `${name} (${code})` : code, role ?? 'guest'].join(', ')}
              </option>
            ))}
          </select>
        )}
      </Field>
      {chosen.id === '' && (
        <>
          <Field label="Initials" required hint="They stand beside every note.">
            {(control) => (
              <input
                {...control}
                value={chosen.code}
                maxLength={20}
                onChange={(event) => onChoose({ ...chosen, code: event.target.value })}
              />
            )}
          </Field>
          <Field label="Name">
            {(control) => (
              <input
                {...control}
                value={chosen.name}
                onChange={(event) => onChoose({ ...chosen, name: event.target.value })}
              />
            )}
          </Field>
          <Field label="Role">
            {(control) => (
              <select
                {...control}
                value={chosen.role}
                onChange={(event) => onChoose({ ...chosen, role: event.target.value as Role })}
              >
                {roles.map(([role, words]) => (
                  <option key={role} value={role}>
                    {words}
                  </option>
                ))}
              </select>
            )}
          </Field>
        </>
      )}
    </>
  );
}
