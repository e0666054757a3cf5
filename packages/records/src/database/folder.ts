import { existsSync, statfsSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';

/** File-system type numbers of Linux statfs(2) for folders that lie on another machine. */
const networkTypes = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'SMB'],
  [0xfe534d42, 'SMB'],
  [0x01021997, '9P'],
  [0x5346414f, 'AFS'],
]);

/** Parts of paths by which folders that a program copies elsewhere are known. */
const synchronised = [
  /^dropbox/i,
  /^onedrive/i,
  /^google ?drive/i,
  /^nextcloud/i,
  /^icloud/i,
  /^mobile documents$/i,
  /^box sync$/i,
  /^pcloud/i,
];

/**
 * Warns where a folder is a bad home for a programme: write-ahead logs need locks and shared memory that network
 * file systems do not give, and a synchronising program may copy a file half written. Source: SQLite, “Write-Ahead
 * Logging”, section 1: all processes must be on the same host.
 */
export function folderWarnings(folder: string): string[] {
  const warnings: string[] = [];
  const type = networkTypeOf(folder);
  if (type) {
    warnings.push(
      `The programme lies on a network drive (${type}): two computers writing there can destroy it. Keep it on a disk of this computer, or use PostgreSQL.`,
    );
  }
  const parts = folder.split(sep);
  const named = parts.find((part) => synchronised.some((pattern) => pattern.test(part)));
  const marked = parts.some((_, index) => existsSync(join(sep, ...parts.slice(1, index + 1), '.stfolder')));
  if (named || marked) {
    warnings.push(
      `The programme lies in a folder that is synchronised (${named ?? '.stfolder'}): copies made while it is open may be torn. Keep it elsewhere and let “keelrow backup” write into that folder.`,
    );
  }
  return warnings;
}

function networkTypeOf(folder: string): string | undefined {
  let existing = folder;
  while (!existsSync(existing) && dirname(existing) !== existing) existing = dirname(existing);
  try {
    return networkTypes.get(Number(statfsSync(existing).type) >>> 0);
  } catch {
    return undefined;
  }
}
