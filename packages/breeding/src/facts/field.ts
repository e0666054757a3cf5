/**
 * What one field of a record can be. A field is declared once, here, and everything else follows from it:
 * the columns of files, the checks on what comes in, the stored column and its type, the labels on screens.
 */

/** Units in which numbers are stored; screens and files may speak US customary units (see units.ts). */
export type Unit = 'cm' | 'm' | 'mm' | 'g' | '°C' | '%' | 'days' | 'years' | '°' | 'weeks' | 'persons';

interface FieldBase {
  /** What the field says, in words for the breeder. */
  readonly meaning: string;
  /** A value as it would stand in a file. */
  readonly example: string;
  readonly required?: boolean;
  /** Other headers under which people keep this field in their own spreadsheets. */
  readonly aliases?: readonly string[];
}

export interface TextField extends FieldBase {
  readonly type: 'text';
}
/** The short name by which people know the record; unique within its kind and never used again. */
export interface CodeField extends FieldBase {
  readonly type: 'code';
  readonly required: true;
}
export interface NumberField extends FieldBase {
  readonly type: 'number' | 'integer';
  readonly unit?: Unit;
  readonly least?: number;
  readonly most?: number;
}
/** A calendar date in the garden's own time zone, `YYYY-MM-DD`. */
export interface DateField extends FieldBase {
  readonly type: 'date';
  /** A date that may lie ahead (the end of a permit); other dates may not. */
  readonly mayLieAhead?: boolean;
}
/** A time of day, `HH:MM`, on the garden's clock. */
export interface TimeField extends FieldBase {
  readonly type: 'time';
}
export interface YesNoField extends FieldBase {
  readonly type: 'yes-no';
}
export interface ChoiceField<Choice extends string = string> extends FieldBase {
  readonly type: 'choice';
  readonly choices: readonly Choice[];
}
/** Another record, written in files by its code. */
export interface ReferenceField extends FieldBase {
  readonly type: 'reference';
  readonly to: string;
}
/** Parents on one side: none, one known, or several possible ones with their chances (see parents.ts). */
export interface ParentsField extends FieldBase {
  readonly type: 'parents';
  readonly side: 'seed' | 'pollen';
}
/** A short list of words, separated by ` | ` in files. */
export interface ListField extends FieldBase {
  readonly type: 'list';
}
/** CIELAB under D65, 2° observer, written `L a b`. */
export interface ColourField extends FieldBase {
  readonly type: 'colour';
}
/** The value of a note: what it holds depends on the kind of its trait (see value.ts). */
export interface ValueField extends FieldBase {
  readonly type: 'value';
}

export type Field =
  | TextField
  | CodeField
  | NumberField
  | DateField
  | TimeField
  | YesNoField
  | ChoiceField
  | ReferenceField
  | ParentsField
  | ListField
  | ColourField
  | ValueField;

export interface Lab {
  readonly l: number;
  readonly a: number;
  readonly b: number;
}

/** One possible parent: a genet by its code or id, or the seed parent itself; the chance that it is the one. */
export interface PossibleParent {
  readonly genet: string | 'self';
  readonly chance: number;
}

type Meaning<F extends Field> = F extends { type: 'number' | 'integer' }
  ? number
  : F extends { type: 'yes-no' }
    ? boolean
    : F extends { type: 'choice'; choices: readonly (infer Choice)[] }
      ? Choice
      : F extends { type: 'parents' }
        ? readonly PossibleParent[]
        : F extends { type: 'list' }
          ? readonly string[]
          : F extends { type: 'colour' }
            ? Lab
            : F extends { type: 'value' }
              ? number | string | Lab
              : string;

type Fields = Readonly<Record<string, Field>>;
type Required<F extends Fields> = {
  [Name in keyof F]: F[Name] extends { required: true } ? Name : never;
}[keyof F];

/** A record in the form in which it is written in files and handed between floors: references are codes or ids. */
export type RowOf<F extends Fields> = { [Name in Required<F>]: Meaning<F[Name]> } & {
  [Name in Exclude<keyof F, Required<F>>]?: Meaning<F[Name]> | null;
} & { id?: string };

/** Any record whose kind is known only when the program runs. */
export type AnyValue = string | number | boolean | readonly PossibleParent[] | readonly string[] | Lab | null;
export type AnyRow = { readonly [field: string]: AnyValue | undefined };

/**
 * A kind of record.
 * nature 'record': describes a thing that lasts; its fields may be changed, each change kept in its history.
 * nature 'fact': something seen or done on a day; never overwritten, only replaced or withdrawn.
 */
export interface Kind<F extends Fields = Fields> {
  readonly one: string;
  readonly many: string;
  readonly about: string;
  readonly nature: 'record' | 'fact';
  /** The field by which people name it; facts have none. */
  readonly key: (keyof F & string) | null;
  /** Of these references exactly one is given (a note is on a plant or a genet or a bed, never on two). */
  readonly oneOf?: readonly (keyof F & string)[];
  readonly fields: F;
}

export const kind = <const F extends Fields>(declared: Kind<F>): Kind<F> => declared;
