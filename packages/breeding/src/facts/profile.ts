import { z } from 'zod';
import { traitSorts } from './kinds/notes.ts';

/** Where a figure or statement of a profile comes from: a reference, or one of the two honest marks. */
const source = z
  .string()
  .min(3)
  .describe("author and year, or 'common practice, no source', or 'from memory'");

const trait = z.strictObject({
  code: z.string().min(1),
  name: z.string().min(1),
  sort: z.enum(traitSorts),
  unit: z.string().optional(),
  least: z.number().optional(),
  most: z.number().optional(),
  classes: z.array(z.string().min(1)).optional(),
  bbch: z.int().min(0).max(99).optional(),
  wanted: z.enum(['more', 'less', 'neither']).optional(),
  how: z.string().optional(),
  source,
});

const figure = z.strictObject({
  name: z.string().min(1),
  least: z.number(),
  most: z.number(),
  unit: z.string().optional(),
  source,
});

const line = z.strictObject({ text: z.string().min(1), source, asOf: z.string().optional() });

/** What differs between kinds of plant, as data: copied, changed and shared as files by the breeder. */
export const profileSchema = z.strictObject({
  profile: z.string().regex(/^[a-z0-9-]+$/, 'small letters, digits and hyphens'),
  name: z.string().min(1),
  genus: z.string().nullable(),
  chromosomes: z.strictObject({ twoN: z.array(z.int().positive()).min(1), source }).nullable(),
  traits: z.array(trait).min(1),
  usualLimits: z.array(figure),
  waysOfIncrease: z.array(line),
  barriers: z.array(line),
  cautions: z.strictObject({ poison: z.array(line), protection: z.array(line), weediness: z.array(line) }),
});

export type Profile = z.infer<typeof profileSchema>;

/** Reads a profile from parsed JSON; says all that is wrong with it, each with its place in the file. */
export function readProfile(json: unknown): { profile: Profile } | { problems: string[] } {
  const result = profileSchema.safeParse(json);
  if (!result.success) {
    return {
      problems: result.error.issues.map(
        (issue) => `${issue.path.join(' › ') || 'the file'}: ${issue.message}`,
      ),
    };
  }
  const problems = [
    ...twice(result.data.traits.map(({ code }) => code)).map(
      (code) => `traits: “${code}” stands there twice`,
    ),
    ...result.data.traits.flatMap(({ code, least, most, sort, classes }) => [
      ...(least !== undefined && most !== undefined && least > most
        ? [`traits › ${code}: least is above most`]
        : []),
      ...(sort === 'classed' && !classes?.length
        ? [`traits › ${code}: a classed trait lists its classes`]
        : []),
    ]),
  ];
  return problems.length > 0 ? { problems } : { profile: result.data };
}

function twice(words: readonly string[]): string[] {
  return [...new Set(words.filter((word, index) => words.indexOf(word) !== index))];
}
