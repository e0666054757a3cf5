import { kind } from '../field.ts';

export const crosses = kind({
  one: 'cross',
  many: 'crosses',
  about: 'Crosses made or observed, with their possible pollen parents.',
  nature: 'record',
  key: 'code',
  fields: {
    code: {
      type: 'code',
      required: true,
      meaning: 'number of the cross',
      example: 'X27-06',
      aliases: ['cross', 'cross number'],
    },
    seed_parent: {
      type: 'parents',
      side: 'seed',
      meaning: 'mother',
      example: '2021-003-1',
      aliases: ['mother', 'female'],
    },
    pollen_parent: {
      type: 'parents',
      side: 'pollen',
      meaning: 'father, `self`, or possible ones with their chances',
      example: '2021-007-2',
      aliases: ['father', 'male'],
    },
    sort: {
      type: 'choice',
      choices: ['by hand', 'selfed', 'open-pollinated', 'observed'],
      meaning: 'how it came about',
      example: 'by hand',
    },
    made_on: { type: 'date', meaning: 'first day of pollination', example: '2027-05-14' },
    brief: { type: 'reference', to: 'briefs', meaning: 'the brief it serves', example: 'tall-slate' },
    tag: { type: 'text', meaning: 'tag on the spike', example: 'red 41' },
    remark: { type: 'text', meaning: 'what is hoped of it', example: 'late and tall' },
  },
});

export const pollinations = kind({
  one: 'pollination',
  many: 'pollinations',
  about: 'Each time that flowers of a cross were worked.',
  nature: 'fact',
  key: null,
  fields: {
    cross: { type: 'reference', to: 'crosses', required: true, meaning: 'the cross', example: 'X27-06' },
    on: { type: 'date', required: true, meaning: 'the day', example: '2027-05-14' },
    at: { type: 'time', meaning: 'the time', example: '08:15' },
    seed_plant: {
      type: 'reference',
      to: 'plants',
      meaning: 'the plant that bears the flowers',
      example: '2021-003-1/2',
    },
    pollen_plant: {
      type: 'reference',
      to: 'plants',
      meaning: 'the plant that gave fresh pollen',
      example: '2021-007-2/1',
    },
    pollen_lot: { type: 'reference', to: 'pollen-lots', meaning: 'or the stored pollen', example: '' },
    florets: { type: 'integer', least: 0, most: 10_000, meaning: 'florets pollinated', example: '32' },
    emasculated: { type: 'yes-no', meaning: 'anthers were taken out', example: 'yes' },
    bagged: { type: 'yes-no', meaning: 'the spike was bagged', example: 'yes' },
    bag_off_on: { type: 'date', meaning: 'day the bag came off', example: '2027-05-22' },
    tag: { type: 'text', meaning: 'tag on the spike', example: 'red 41' },
    weather: { type: 'text', meaning: 'weather in plain words', example: 'dry, light wind' },
    by: { type: 'reference', to: 'people', meaning: 'who pollinated', example: 'MK' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});

export const pollenLots = kind({
  one: 'pollen lot',
  many: 'pollen lots',
  about: 'Pollen collected and stored.',
  nature: 'record',
  key: 'code',
  fields: {
    code: { type: 'code', required: true, meaning: 'number of the pollen lot', example: 'P27-02' },
    genet: {
      type: 'reference',
      to: 'genets',
      required: true,
      meaning: 'the genet it is from',
      example: '2021-007-2',
    },
    plant: { type: 'reference', to: 'plants', meaning: 'the plant it is from', example: '2021-007-2/1' },
    collected_on: { type: 'date', required: true, meaning: 'day of collection', example: '2027-05-10' },
    stored: { type: 'text', meaning: 'how it is stored', example: 'over silica gel, sealed' },
    temperature_c: {
      type: 'number',
      unit: '°C',
      least: -200,
      most: 60,
      meaning: 'temperature of the store',
      example: '-20',
    },
    used_up_on: { type: 'date', meaning: 'day it was used up or thrown away', example: '2027-06-30' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});

export const pollenTests = kind({
  one: 'pollen test',
  many: 'pollen tests',
  about: 'Counts of germinated pollen grains.',
  nature: 'fact',
  key: null,
  fields: {
    pollen_lot: {
      type: 'reference',
      to: 'pollen-lots',
      required: true,
      meaning: 'the pollen lot',
      example: 'P27-02',
    },
    on: { type: 'date', required: true, meaning: 'day of the test', example: '2027-05-25' },
    counted: { type: 'integer', least: 1, required: true, meaning: 'grains counted', example: '200' },
    germinated: { type: 'integer', least: 0, required: true, meaning: 'grains with a tube', example: '130' },
    medium: { type: 'text', meaning: 'medium', example: 'sucrose 15%, boron' },
    by: { type: 'reference', to: 'people', meaning: 'who counted', example: 'MK' },
  },
});
