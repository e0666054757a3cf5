import { kind } from '../field.ts';

export const people = kind({
  one: 'person',
  many: 'people',
  about: 'Who works in the programme: who saw, did and decided.',
  nature: 'record',
  key: 'code',
  fields: {
    code: {
      type: 'code',
      required: true,
      meaning: 'initials or a short name',
      example: 'MK',
      aliases: ['initials', 'observer'],
    },
    name: { type: 'text', meaning: 'full name', example: 'Mara Kestrel' },
    role: {
      type: 'choice',
      choices: ['owner', 'recorder', 'guest'],
      meaning:
        'owner: everything; recorder: notes, photos and proposed decisions; guest: reads bloom and plants',
      example: 'recorder',
    },
    left_on: {
      type: 'date',
      meaning: 'the day from which the person no longer works here',
      example: '2027-10-31',
    },
    remark: { type: 'text', meaning: 'anything else', example: 'mornings only' },
  },
});

export const devices = kind({
  one: 'device',
  many: 'devices',
  about: 'A phone or computer that was let in, and whose it is.',
  nature: 'record',
  key: 'code',
  fields: {
    code: { type: 'code', required: true, meaning: 'short name of the device', example: 'phone-mara' },
    person: { type: 'reference', to: 'people', meaning: 'whose it is', example: 'MK' },
    let_in_on: { type: 'date', meaning: 'the day it was let in', example: '2027-03-01' },
    shut_out_on: { type: 'date', meaning: 'the day its key was revoked', example: '2027-09-12' },
    remark: { type: 'text', meaning: 'anything else', example: 'cracked glass' },
  },
});
