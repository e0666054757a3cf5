import { kind } from '../field.ts';

export const briefs = kind({
  one: 'brief',
  many: 'briefs',
  about: 'What a wanted cultivar has to be.',
  nature: 'record',
  key: 'code',
  fields: {
    code: { type: 'code', required: true, meaning: 'short name', example: 'tall-slate' },
    name: { type: 'text', required: true, meaning: 'name in full', example: 'Tall slate spires for June' },
    aim: { type: 'text', meaning: 'what it is for', example: 'back of the border, cut flower' },
    by: { type: 'reference', to: 'people', meaning: 'who wants it', example: 'MK' },
    closed_on: { type: 'date', meaning: 'day it was given up or met', example: '2034-09-01' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});

export const briefLimits = kind({
  one: 'limit of a brief',
  many: 'limits of briefs',
  about: 'One limit on one trait, a must or a wish.',
  nature: 'record',
  key: null,
  fields: {
    brief: { type: 'reference', to: 'briefs', required: true, meaning: 'the brief', example: 'tall-slate' },
    trait: { type: 'reference', to: 'traits', required: true, meaning: 'the trait', example: 'spike-length' },
    must: { type: 'yes-no', required: true, meaning: 'a must (yes) or a wish (no)', example: 'yes' },
    weight: { type: 'number', least: 0, meaning: 'weight of a wish', example: '2' },
    at_least: { type: 'number', meaning: 'smallest value wanted, in the trait’s unit', example: '40' },
    at_most: { type: 'number', meaning: 'largest value wanted', example: '' },
    classes: { type: 'list', meaning: 'classes wanted', example: 'bare' },
    colour: { type: 'colour', meaning: 'colour wanted, CIELAB', example: '45 5 -22' },
    colour_within: { type: 'number', least: 0, meaning: 'CIEDE2000 difference allowed', example: '8' },
    from_week: {
      type: 'integer',
      unit: 'weeks',
      least: 1,
      most: 53,
      meaning: 'in flower from this week of the year',
      example: '22',
    },
    to_week: { type: 'integer', unit: 'weeks', least: 1, most: 53, meaning: 'to this week', example: '26' },
  },
});

export const trials = kind({
  one: 'trial',
  many: 'trials',
  about: 'Layouts grown to compare genets.',
  nature: 'record',
  key: 'code',
  fields: {
    code: { type: 'code', required: true, meaning: 'short name', example: 'TR30' },
    name: { type: 'text', meaning: 'name in full', example: 'Late blues against two standards' },
    place: { type: 'reference', to: 'places', meaning: 'the bed', example: 'bed-7' },
    layout: {
      type: 'choice',
      choices: ['complete blocks', 'incomplete blocks', 'rows and columns', 'augmented', 'no layout'],
      meaning: 'kind of layout',
      example: 'complete blocks',
    },
    planted_on: { type: 'date', meaning: 'day of planting', example: '2030-10-06' },
    ended_on: { type: 'date', meaning: 'last day', example: '2034-10-01' },
    seed: { type: 'integer', meaning: 'number from which its random order was drawn', example: '4711' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});

export const trialEntries = kind({
  one: 'place in a trial',
  many: 'places in trials',
  about: 'Which genet stands where in a trial.',
  nature: 'record',
  key: null,
  fields: {
    trial: { type: 'reference', to: 'trials', required: true, meaning: 'the trial', example: 'TR30' },
    genet: { type: 'reference', to: 'genets', required: true, meaning: 'the genet', example: '2021-003-1' },
    plant: { type: 'reference', to: 'plants', meaning: 'its plant', example: '2021-003-1/4' },
    replicate: { type: 'integer', least: 1, meaning: 'replicate', example: '2' },
    block: { type: 'integer', least: 1, meaning: 'block', example: '2' },
    row: { type: 'integer', least: 1, meaning: 'row', example: '3' },
    column: { type: 'integer', least: 1, meaning: 'column', example: '5' },
    standard: { type: 'yes-no', meaning: 'grown as a standard', example: 'no' },
  },
});

export const disclosures = kind({
  one: 'disclosure',
  many: 'disclosures',
  about: 'Each time a plant was shown, given, sold or published; legal terms are reckoned from these days.',
  nature: 'fact',
  key: null,
  fields: {
    genet: { type: 'reference', to: 'genets', required: true, meaning: 'the genet', example: '2021-003-1' },
    on: { type: 'date', required: true, meaning: 'the day', example: '2032-06-01' },
    how: {
      type: 'choice',
      required: true,
      choices: ['shown', 'given', 'lent for trial', 'offered', 'sold', 'catalogue', 'posted', 'published'],
      meaning: 'what was done',
      example: 'shown',
    },
    to_whom: { type: 'text', meaning: 'to whom', example: 'visitors on the open day' },
    where: { type: 'text', meaning: 'where', example: 'the garden' },
    under_terms: { type: 'text', meaning: 'agreement in writing, if any', example: '' },
    by: { type: 'reference', to: 'people', meaning: 'who did it', example: 'MK' },
    remark: { type: 'text', meaning: 'anything else', example: '' },
  },
});
