import type {
  BestOf,
  BriefMatch,
  EstimatesReport,
  ImportPreview,
  InformationParts,
  JobState,
  TraitModel,
  Upload,
  WintersReport,
} from '@keelrow/server/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningKeelrow, runKeelrow, startKeelrow } from './support/running-keelrow.ts';

let served: RunningKeelrow;
beforeAll(async () => {
  served = await startKeelrow(['serve', '--open']);
});
afterAll(() => served.stop());

type Answer = { status: number; body: never & Record<string, unknown> };

async function ask(path: string, init: RequestInit = {}, at = served.address): Promise<Answer> {
  const response = await fetch(at + path, init);
  return { status: response.status, body: (await response.json()) as Answer['body'] };
}

const json = (method: string, body: unknown, headers: Record<string, string> = {}): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json', ...headers },
  body: JSON.stringify(body),
});

async function finished<Result>(job: string): Promise<JobState<Result>> {
  for (;;) {
    const { body } = await ask(`/api/jobs/${job}`);
    const state = body as unknown as JobState<Result>;
    if (state.state !== 'waiting' && state.state !== 'running') return state;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
}

describe('a server opened for this computer alone', () => {
  it('answers to this computer’s own name only, and to nobody’s go-between', async () => {
    expect((await ask('/api/programme')).status).toBe(200);
    for (const header of ['x-forwarded-for', 'forwarded', 'x-real-ip', 'via']) {
      const { status, body } = await ask('/api/programme', { headers: { [header]: '127.0.0.1' } });
      expect([header, status]).toEqual([header, 403]);
      expect(body).toMatchObject({ error: { remedy: expect.stringContaining('without --open') } });
    }
  });

  it('refuses a change asked for by another site’s page', async () => {
    const { status } = await ask(
      '/api/records/genets',
      json('POST', { row: { code: 'evil' } }, { origin: 'https://elsewhere.example' }),
    );
    expect(status).toBe(403);
  });

  it('cannot be opened to other computers', async () => {
    const { status, err } = await runKeelrow([
      'serve',
      '--open',
      '--host',
      '0.0.0.0',
      '--port',
      '0',
      '--data',
      served.data,
    ]);
    expect(status).toBe(2);
    expect(err).toContain('--open is for this computer alone');
  });

  it('sends pages that may load nothing from elsewhere', async () => {
    const response = await fetch(`${served.address}/plants`);
    expect(response.headers.get('content-security-policy')).toContain("default-src 'self'");
    expect(await response.text()).toContain('<div id="');
  });
});

describe('a server with sign-in', () => {
  it('lets nobody in without a key, and the key once', async () => {
    const closed = await startKeelrow(['serve']);
    try {
      expect((await ask('/api/plants', {}, closed.address)).status).toBe(401);
      expect(await ask('/api/programme', {}, closed.address)).toMatchObject({
        status: 200,
        body: { person: null },
      });
      const key = new URL(closed.link).hash.replace('#key=', '');
      const signIn = () => fetch(`${closed.address}/api/sign-in`, json('POST', { key }));
      const first = await signIn();
      expect(first.status).toBe(200);
      const cookie = first.headers.get('set-cookie')!;
      expect(cookie).toMatch(/HttpOnly/i);
      expect(cookie).toMatch(/SameSite=Strict/i);
      expect((await signIn()).status).toBe(401);
      const headers = { cookie: cookie.split(';')[0]! };
      expect((await ask('/api/plants', { headers }, closed.address)).status).toBe(200);
      await fetch(`${closed.address}/api/sign-out`, { method: 'POST', headers });
      expect((await ask('/api/plants', { headers }, closed.address)).status).toBe(401);
    } finally {
      await closed.stop();
    }
  });
});

describe('records over the API', () => {
  it('adds, changes, tells the history and withdraws', async () => {
    const made = await ask('/api/records/genets', json('POST', { row: { code: 'G-1', name: 'Slate Hern' } }));
    expect(made).toMatchObject({ status: 200, body: { row: { code: 'G-1' } } });
    const { id } = made.body as { id: string };
    await ask(
      `/api/records/genets/${id}`,
      json('PATCH', { fields: { name: 'Slate Heron' }, reason: 'slip of the pen' }),
    );
    const history = await ask(`/api/history/genets/${id}`);
    expect(history.body).toMatchObject([
      {
        what: 'changed',
        reason: 'slip of the pen',
        via: 'browser',
        fields: [{ field: 'name', before: 'Slate Hern', after: 'Slate Heron' }],
      },
      { what: 'made' },
    ]);
    expect((await ask(`/api/records/genets/${id}/withdraw`, json('POST', { reason: '' }))).status).toBe(422);
    expect(
      (await ask(`/api/records/genets/${id}/withdraw`, json('POST', { reason: 'entered twice' }))).status,
    ).toBe(200);
    expect((await ask('/api/plants?search=G-1')).body).toMatchObject({ total: 0 });
  });

  it('says which field is wrong and what mends it', async () => {
    const { status, body } = await ask(
      '/api/records/plants',
      json('POST', { row: { code: 'P-1', genet: 'nobody' } }),
    );
    expect(status).toBe(422);
    expect(body).toEqual({
      error: {
        problem: 'plant P-1: there is no genet “nobody”',
        remedy: 'store that genet first, or mend the spelling',
        where: { field: 'genet' },
      },
    });
  });

  it('stores each note or gives it back with its reason, and takes it again without doubling it', async () => {
    await ask(
      '/api/records/traits',
      json('POST', {
        row: { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
      }),
    );
    await ask('/api/records/genets', json('POST', { row: { code: 'G-2' } }));
    await ask('/api/records/plants', json('POST', { row: { code: 'G-2/1', genet: 'G-2' } }));
    const note = {
      id: '01900000-0000-7000-8000-00000000000a',
      plant: 'G-2/1',
      trait: 'height',
      on: '2024-05-20',
      value: 80,
    };
    const wrong = { ...note, id: '01900000-0000-7000-8000-00000000000b', value: 800 };
    const send = () => ask('/api/notes', json('POST', { notes: [note, wrong] }));
    const results = [
      { id: note.id, problem: null },
      { id: wrong.id, problem: expect.stringContaining('800 cm is above the most for Height') },
    ];
    expect((await send()).body).toEqual({ results });
    expect((await send()).body).toEqual({ results });
    expect((await ask('/api/records/notes')).body).toMatchObject({ total: 1 });
  });

  it('lists plants with empty values last, upwards and downwards', async () => {
    const years = async (query: string) =>
      (
        (await ask(`/api/plants?sort=raisedIn${query}`)).body as unknown as {
          rows: { raisedIn: number | null }[];
        }
      ).rows.map(({ raisedIn }) => raisedIn);
    await ask('/api/records/genets', json('POST', { row: { code: 'Y-1', raised_in: 2019 } }));
    await ask('/api/records/genets', json('POST', { row: { code: 'Y-2', raised_in: 2021 } }));
    expect((await years('')).slice(0, 3)).toEqual([2019, 2021, null]);
    expect((await years('&descending=true')).slice(0, 3)).toEqual([2021, 2019, null]);
  });

  it('finds notes by the plant and the trait that they are on', async () => {
    expect((await ask('/api/records/notes?search=g-2')).body).toMatchObject({ total: 1 });
    expect((await ask('/api/records/notes?search=height')).body).toMatchObject({ total: 1 });
    expect((await ask('/api/records/notes?search=nobody')).body).toMatchObject({ total: 0 });
  });

  it('refuses a time zone that there is not, and goes on', async () => {
    const { status, body } = await ask('/api/programme', json('PATCH', { timeZone: 'Mars/Phobos' }));
    expect(status).toBe(400);
    expect(JSON.stringify(body)).toContain('no such time zone');
    expect((await ask('/api/programme')).status).toBe(200);
  });

  it('answers nonsense with words, never with its inner workings', async () => {
    const answers = [
      await ask('/api/nothing'),
      await ask('/api/records/gnomes'),
      await ask('/api/genets/nobody'),
      await ask('/api/plants?limit=12abc'),
      await ask('/api/note-grid?year=last'),
      await ask('/api/jobs/none'),
      await ask('/api/history/genets/nobody'),
      await ask('/api/notes', json('POST', { notes: [] }, { origin: 'null' })),
      await ask('/api/imports/none/preview', json('POST', { plan: { kind: 'notes', columns: [] } })),
      await ask('/api/notes', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{"notes": [',
      }),
      await ask('/api/notes', json('POST', { notes: 'many' })),
      await ask('/api/estimates', json('POST', {})),
      await ask('/api/briefs/match', json('POST', {})),
    ];
    for (const { status, body } of answers) {
      expect(status).toBeGreaterThanOrEqual(400);
      expect(status).toBeLessThan(500);
      expect(JSON.stringify(body)).not.toMatch(/\bat .*\.(ts|js):\d/);
      expect((body as { error: { problem: string } }).error.problem).not.toBe('');
    }
  });
});

describe('a spreadsheet brought in over the API', () => {
  const sheet = ['Plant;Year;Height (in);Spikes', ...sheetRows()].join('\r\n');

  it('is looked at, stored and ranked', async () => {
    const upload = await ask(`/api/imports?name=${encodeURIComponent('my notes.csv')}`, {
      method: 'POST',
      body: sheet,
      headers: { 'content-type': 'text/csv' },
    });
    expect(upload.status).toBe(200);
    const { upload: id, proposal, headers } = upload.body as unknown as Upload;
    expect(headers).toEqual(['Plant', 'Year', 'Height (in)', 'Spikes']);
    expect(proposal).toMatchObject({
      kind: 'notes',
      columns: [{ field: 'plant' }, { year: true }, { trait: 'height', unit: 'in' }, { trait: 'spikes' }],
    });

    const look = async (plan: object) =>
      (await ask(`/api/imports/${id}/preview`, json('POST', { plan }))).body as unknown as ImportPreview;
    const asked = await look(proposal);
    expect(asked.questions).toMatchObject([{ ask: 'year day' }]);
    const dated = await look({ ...proposal, yearDay: '06-01' });
    expect(dated.missing).toMatchObject([{ kind: 'plants', count: 12, canMake: true }]);
    const plan = { ...proposal, yearDay: '06-01', make: ['plants'] };
    const ready = await look(plan);
    expect(ready).toMatchObject({ problemCount: 0, wouldStore: { plants: 12, genets: 12, notes: 72 } });
    expect((await ask('/api/records/notes')).body).toMatchObject({ total: 1 });

    const { job } = (await ask(`/api/imports/${id}/store`, json('POST', { plan }))).body as unknown as {
      job: string;
    };
    expect(await finished(job)).toMatchObject({
      state: 'done',
      result: { problemCount: 0, stored: { notes: 72 } },
    });
    expect((await ask('/api/plants?search=blue')).body).toMatchObject({ total: 12 });

    const reckoned = (await ask('/api/estimates', json('POST', { trait: 'height' }))).body as unknown as {
      job: string;
    };
    const report = (
      await finished<{ estimates: { id: string; code: string; estimate: number; se: number }[] }>(
        reckoned.job,
      )
    ).result!;
    expect(report.estimates.length).toBeGreaterThanOrEqual(12);
    expect(report.estimates[0]!.code).toBe('Blue 12');
    const [first, second] = report.estimates;
    const compared = (
      await ask('/api/estimates/compare', json('POST', { trait: 'height', a: first!.id, b: second!.id }))
    ).body as unknown as { job: string };
    const pair = (
      await finished<{
        difference: number;
        chanceAMore: number;
        withMoreYears: { se: number }[];
        se: number;
      }>(compared.job)
    ).result!;
    expect(pair.difference).toBeCloseTo(first!.estimate - second!.estimate, 8);
    expect(pair.chanceAMore).toBeGreaterThan(0.5);
    expect(pair.withMoreYears[0]!.se).toBeLessThan(pair.se);
  });

  it('tells where an estimate came from, who may be the best, what the model is, and how winters went', async () => {
    const told = async <Told>(path: string, body: object): Promise<Told> => {
      const { job } = (await ask(path, json('POST', body))).body as unknown as { job: string };
      const { result, error } = await finished<Told>(job);
      if (!result) throw new Error(JSON.stringify(error));
      return result;
    };
    const trait = 'height';
    const { estimates, heritability } = await told<EstimatesReport>('/api/estimates', { trait });
    // Twelve genets without known parents: each by its own notes.
    expect(heritability).toBeNull();
    const parts = await told<InformationParts>('/api/estimates/information', {
      trait,
      genet: estimates[0]!.id,
    });
    expect(parts.parts.reduce((sum, { effect }) => sum + effect, 0)).toBeCloseTo(parts.effect, 8);
    expect(parts.parts[0]!.from).toBe('own notes');
    const best = await told<BestOf>('/api/estimates/best', { trait, k: 2 });
    expect(best.chances.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(2, 8);
    const model = await told<TraitModel>('/api/estimates/model', { trait });
    expect(model.residuals.length).toBe(model.report.notes);
    expect(model.terms.map(({ term }) => term)).toContain('season');
    const winters = await told<WintersReport>('/api/estimates/winters', {});
    expect(winters.words[0]).toMatch(/too few to say what winters do/);
    expect((await ask('/api/estimates/best', json('POST', { trait, k: 0 }))).status).toBe(400);
  });

  it('is held against a brief, and a brief that is not there is refused with the list', async () => {
    const stored = async (kind: string, row: object) =>
      expect((await ask(`/api/records/${kind}`, json('POST', { row }))).status).toBe(200);
    await stored('briefs', { code: 'tall', name: 'Tall ones' });
    await stored('brief-limits', { brief: 'tall', trait: 'height', must: true, at_least: 1 });
    const start = async (brief: string) =>
      (await ask('/api/briefs/match', json('POST', { brief }))).body as unknown as { job: string };
    const { result } = await finished<BriefMatch>((await start('tall')).job);
    expect(result).toMatchObject({ brief: { code: 'tall' }, limits: [{ must: true, unknown: null }] });
    expect(result!.plants.length).toBeGreaterThanOrEqual(12);
    expect(result!.plants[0]!.chance).toBeGreaterThan(0.99);
    const absent = await finished((await start('short')).job);
    expect(absent).toMatchObject({
      state: 'failed',
      error: { problem: 'there is no brief “short”', remedy: 'the briefs are tall' },
    });
  });

  it('is known again and refused', async () => {
    const { body } = await ask('/api/imports?name=copy.csv', {
      method: 'POST',
      body: sheet,
      headers: { 'content-type': 'application/octet-stream' },
    });
    const { upload, proposal } = body as unknown as Upload;
    const plan = { ...proposal, yearDay: '06-01', make: ['plants'] };
    const again = (await ask(`/api/imports/${upload}/preview`, json('POST', { plan })))
      .body as unknown as ImportPreview;
    expect(again.problems[0]!.problem).toMatch(/taken in on .* as “my notes.csv”/);
  });

  it('that is no table is refused with a remedy', async () => {
    const { status, body } = await ask('/api/imports?name=photo.png', {
      method: 'POST',
      body: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]),
    });
    expect(status).toBe(422);
    expect((body as unknown as { error: { remedy: string } }).error.remedy).not.toBe('');
  });

  it('comes out again as CSV and XLSX', async () => {
    const csv = await (await fetch(`${served.address}/api/export/genets.csv`)).text();
    expect(csv).toContain('Blue 12');
    const xlsx = new Uint8Array(await (await fetch(`${served.address}/api/export/all.xlsx`)).arrayBuffer());
    expect([...xlsx.slice(0, 2)]).toEqual([0x50, 0x4b]);
  });
});

/** Twelve plants over three years, taller by number, with some scatter and two readings a year. */
function sheetRows(): string[] {
  const scatter = [0.4, -0.9, 0.2, 1.1, -0.5, 0.7, -1.2, 0.1];
  return Array.from({ length: 36 }, (_, index) => {
    const [plant, year] = [(index % 12) + 1, 2021 + Math.floor(index / 12)];
    const height = 24 + plant + (year - 2021) * 2 + scatter[index % scatter.length]!;
    return `Blue ${plant};${year};${height.toFixed(1).replace('.', ',')};${10 + plant}`;
  });
}
