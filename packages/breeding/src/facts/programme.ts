import { z } from 'zod';
import { patternProblem, usualPatterns } from './codes.ts';

/** Whether the text names a time zone of the IANA database that this computer knows. */
export function isTimeZone(name: string): boolean {
  try {
    return name !== '' && new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** What a programme sets once for all its records. */
export const programmeSettings = z.object({
  name: z.string().min(1),
  /** IANA name of the garden's time zone; calendar dates are meant in it. */
  timeZone: z.string().refine(isTimeZone, 'there is no such time zone; write it as Europe/Berlin or UTC'),
  /** Units on screens and in files; what is stored is metric in either case. */
  units: z.enum(['metric', 'us']),
  /** Patterns of new codes by kind. */
  codePatterns: z.record(z.string(), z.string()).superRefine((patterns, context) => {
    for (const [kind, pattern] of Object.entries(patterns)) {
      const problem = patternProblem(pattern);
      if (problem) context.addIssue({ code: 'custom', path: [kind], message: problem });
    }
  }),
  /** 'demo' where the garden is the invented one. */
  kindOfGarden: z.enum(['own', 'demo']),
});

export type ProgrammeSettings = z.infer<typeof programmeSettings>;

export const usualSettings: ProgrammeSettings = {
  name: 'My garden',
  timeZone: 'UTC',
  units: 'metric',
  codePatterns: usualPatterns,
  kindOfGarden: 'own',
};
