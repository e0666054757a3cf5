import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';

const folder = mkdtempSync(join(tmpdir(), 'keelrow-lan-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.each([
  [['--open'], 2, '--open is for this computer alone and cannot go with --lan'],
  [['--port', '65534'], 2, 'the ports 65535 and 65536 are needed'],
  [['--host', '203.0.113.9'], 1, '203.0.113.9 is no private IPv4 address of this computer'],
])('keelrow serve --lan %j is refused in words', async (more, status, words) => {
  const data = join(folder, String(status) + more.join(''));
  const run = await runKeelrow(['serve', '--lan', '--data', data, ...more]);
  expect([run.status, run.err]).toEqual([status, expect.stringContaining(words)]);
  expect(run.err).toContain('→');
  if (status === 2) expect(existsSync(data)).toBe(false);
});
