import type { Row } from '@keelrow/breeding/facts';

export const briefs: readonly Row<'briefs'>[] = [
  { code: 'tall-slate', name: 'Tall slate spires for June', aim: 'back of the border, cut flower', by: 'MK' },
  { code: 'short-cream', name: 'Low cream with many spikes', aim: 'pots and front of the border', by: 'TA' },
  { code: 'late-yellow', name: 'Clear yellow after all others', aim: 'ends the season', by: 'MK' },
];

export const briefLimits: readonly Row<'brief-limits'>[] = [
  { brief: 'tall-slate', trait: 'height', must: true, at_least: 100, at_most: 150 },
  { brief: 'tall-slate', trait: 'spike-length', must: true, at_least: 32 },
  {
    brief: 'tall-slate',
    trait: 'banner-colour',
    must: true,
    colour: { l: 42, a: 6, b: -14 },
    colour_within: 14,
  },
  { brief: 'tall-slate', trait: 'lodging', must: false, weight: 2, at_most: 3.5 },
  { brief: 'short-cream', trait: 'height', must: true, at_most: 85 },
  { brief: 'short-cream', trait: 'spike-count', must: true, at_least: 12 },
  {
    brief: 'short-cream',
    trait: 'banner-colour',
    must: true,
    colour: { l: 90, a: -2, b: 16 },
    colour_within: 10,
  },
  {
    brief: 'short-cream',
    trait: 'foliage-to-ground',
    must: false,
    weight: 1,
    classes: ['leafy to the ground'],
  },
  { brief: 'late-yellow', trait: 'first-flower', must: true, from_week: 22, to_week: 27 },
  {
    brief: 'late-yellow',
    trait: 'banner-colour',
    must: true,
    colour: { l: 84, a: 2, b: 66 },
    colour_within: 16,
  },
  { brief: 'late-yellow', trait: 'leaf-spot', must: false, weight: 3, at_most: 4 },
];
