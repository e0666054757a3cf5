import type { AnyValue, Field, Lab, PossibleParent } from './field.ts';
import { writeParents } from './parents.ts';
import { writeLab } from './value.ts';

/** A value as files and histories write it; empty text for none. The reverse is the importer's reading of cells. */
export function fieldAsText(field: Field, value: AnyValue | undefined): string {
  if (value === null || value === undefined) return '';
  switch (field.type) {
    case 'yes-no':
      return value ? 'yes' : 'no';
    case 'parents':
      return writeParents(value as readonly PossibleParent[]);
    case 'list':
      return (value as readonly string[]).join(' | ');
    case 'colour':
      return writeLab(value as Lab);
    case 'value':
      return typeof value === 'object' ? writeLab(value as Lab) : String(value);
    default:
      return String(value);
  }
}
