import { fieldsOf, isKindName, kindNames, kindOf } from '@keelrow/breeding/facts';
import { Command } from 'commander';
import { InputError, printTable } from '../telling.ts';

export const columnsCommand = (): Command =>
  new Command('columns')
    .description('the columns of a kind of record: name, meaning, unit, required or not, an example')
    .argument('[kind]', 'kind of record; without it the kinds are listed')
    .action((kind: string | undefined, options: { json?: boolean }) => {
      if (kind === undefined) return listKinds(options.json === true);
      if (!isKindName(kind))
        throw new InputError(`“${kind}” is no kind of record`, `the kinds are ${kindNames.join(', ')}`);
      const { about, oneOf } = kindOf(kind);
      const columns = fieldsOf(kind).map(([name, field]) => ({
        name,
        meaning: field.meaning,
        type: field.type,
        unit: 'unit' in field ? (field.unit ?? null) : null,
        required: field.required === true,
        choices: field.type === 'choice' ? field.choices : null,
        refersTo: field.type === 'reference' ? field.to : null,
        example: field.example,
      }));
      if (options.json) {
        console.log(JSON.stringify({ kind, about, oneOf: oneOf ?? null, columns }, null, 2));
        return;
      }
      console.log(`${kind}: ${about}\n`);
      printTable(
        ['column', 'unit', 'required', 'example', 'meaning'],
        columns.map(({ name, unit, required, example, meaning, choices, refersTo }) => [
          name,
          unit ?? '',
          required ? 'yes' : '',
          example,
          [meaning, choices ? `one of: ${choices.join(', ')}` : '', refersTo ? `code in ${refersTo}` : '']
            .filter(Boolean)
            .join('; '),
        ]),
      );
      if (oneOf) console.log(`\nExactly one of ${oneOf.join(', ')} is given.`);
      console.log(
        `\n${columns.map(({ name }) => name).join(',')}\n${columns.map(({ name, example }) => (oneOf && name !== oneOf[0] && oneOf.includes(name) ? '' : /[",;]/.test(example) ? `"${example}"` : example)).join(',')}`,
      );
    });

function listKinds(json: boolean): void {
  if (json)
    console.log(
      JSON.stringify(
        kindNames.map((kind) => ({ kind, about: kindOf(kind).about })),
        null,
        2,
      ),
    );
  else
    printTable(
      ['kind', 'what it is'],
      kindNames.map((kind) => [kind, kindOf(kind).about]),
    );
}
