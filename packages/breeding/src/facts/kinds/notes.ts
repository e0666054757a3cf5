import { kind } from '../field.ts';

/** What a trait's notes hold; see value.ts. */
export const traitSorts = [
  'measured',
  'counted',
  'scored',
  'staged',
  'dated',
  'classed',
  'coloured',
  'pictured',
  'spoken',
  'written',
] as const;

export const traits = kind({
  one: 'trait',
  many: 'traits',
  about: 'What can be noted, in which unit, within which limits, and how to take it.',
  nature: 'record',
  key: 'code',
  fields: {
    code: {
      type: 'code',
      required: true,
      meaning: 'short name, used as a header',
      example: 'spike-length',
      aliases: ['trait'],
    },
    name: { type: 'text', required: true, meaning: 'name on screens', example: 'Spike length' },
    sort: {
      type: 'choice',
      required: true,
      choices: traitSorts,
      meaning:
        'measured and counted: a number; scored: points on a scale; staged: the day a growth stage was reached; dated: another date; classed: one of the listed classes; coloured, pictured, spoken, written',
      example: 'measured',
    },
    unit: { type: 'text', meaning: 'unit of its numbers, metric', example: 'cm' },
    least: { type: 'number', meaning: 'a smaller value is a slip', example: '5' },
    most: { type: 'number', meaning: 'a larger value is a slip', example: '90' },
    classes: {
      type: 'list',
      meaning: 'the classes of a classed trait, in their order',
      example: 'bare | leafy half way | leafy to the ground',
    },
    bbch: { type: 'integer', least: 0, most: 99, meaning: 'BBCH code of a growth stage', example: '60' },
    wanted: {
      type: 'choice',
      choices: ['more', 'less', 'neither'],
      meaning: 'whether more or less of it is better, as a rule, for ranking',
      example: 'more',
    },
    how: { type: 'text', meaning: 'how to take it', example: 'longest spike, lowest to highest floret' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});

export const notes = kind({
  one: 'note',
  many: 'notes',
  about: 'One recorded value of one trait on one plant, genet, cross, seed lot, batch or place on one day.',
  nature: 'fact',
  key: null,
  oneOf: ['plant', 'genet', 'cross', 'seed_lot', 'batch', 'place'],
  fields: {
    plant: { type: 'reference', to: 'plants', meaning: 'the plant it is on', example: '2027-014-3/1' },
    genet: {
      type: 'reference',
      to: 'genets',
      meaning: 'the genet, where no single plant is meant',
      example: '',
    },
    cross: { type: 'reference', to: 'crosses', meaning: 'the cross', example: '' },
    seed_lot: { type: 'reference', to: 'seed-lots', meaning: 'the seed lot', example: '' },
    batch: { type: 'reference', to: 'batches', meaning: 'the batch of cuttings', example: '' },
    place: {
      type: 'reference',
      to: 'places',
      meaning: 'the bed or other place, where the note is on it as a whole',
      example: '',
    },
    trait: {
      type: 'reference',
      to: 'traits',
      required: true,
      meaning: 'what was noted',
      example: 'spike-length',
    },
    on: {
      type: 'date',
      required: true,
      meaning: 'the day it was seen',
      example: '2031-05-20',
      aliases: ['date', 'day', 'noted on'],
    },
    at: { type: 'time', meaning: 'the time of day', example: '08:40', aliases: ['time'] },
    state: {
      type: 'choice',
      choices: ['seen', 'not yet', 'dead', 'missing', 'skipped'],
      meaning: 'seen (the usual case), or why there is no value; `not yet` is a note in itself',
      example: 'seen',
    },
    value: {
      type: 'value',
      meaning: 'the value in the trait’s unit; a date for stages; a class; L a b for a colour',
      example: '41.5',
    },
    taken_by_way_of: {
      type: 'text',
      meaning: 'how it was measured, where ways differ',
      example: 'steel rule',
    },
    grown_at: {
      type: 'reference',
      to: 'places',
      meaning: 'where the plant stood, if not where the plant’s own record says',
      example: '',
    },
    photo: { type: 'reference', to: 'photos', meaning: 'the photo that belongs to it', example: '' },
    by: {
      type: 'reference',
      to: 'people',
      meaning: 'who saw it',
      example: 'MK',
      aliases: ['observer', 'noted by'],
    },
    remark: { type: 'text', meaning: 'anything else', example: 'windy' },
  },
});

export const photos = kind({
  one: 'photo',
  many: 'photos',
  about: 'Pictures, each kept as a file under the SHA-256 of its bytes.',
  nature: 'record',
  key: 'hash',
  fields: {
    hash: {
      type: 'code',
      required: true,
      meaning: 'SHA-256 of the file, in hexadecimal',
      example: 'e3b0c44298fc1c149afbf4c8996fb924…',
    },
    plant: { type: 'reference', to: 'plants', meaning: 'the plant on it', example: '2027-014-3/1' },
    genet: { type: 'reference', to: 'genets', meaning: 'the genet on it', example: '' },
    place: { type: 'reference', to: 'places', meaning: 'the place on it', example: '' },
    trait: { type: 'reference', to: 'traits', meaning: 'the trait it shows', example: 'flower-colour' },
    taken_on: { type: 'date', meaning: 'day it was taken', example: '2031-05-20' },
    by: { type: 'reference', to: 'people', meaning: 'who took it', example: 'MK' },
    media_type: { type: 'text', meaning: 'media type of the file', example: 'image/jpeg' },
    bytes: { type: 'integer', least: 0, meaning: 'size of the file', example: '284113' },
    width_px: { type: 'integer', least: 1, meaning: 'width in pixels', example: '1600' },
    height_px: { type: 'integer', least: 1, meaning: 'height in pixels', example: '1200' },
    caption: { type: 'text', meaning: 'what it shows', example: 'third floret from below, in shade' },
  },
});
