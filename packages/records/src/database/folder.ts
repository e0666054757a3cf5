import { existsSync, realpathSync, statfsSync } from 'node:fs';
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
  // A link may lead into such a folder, or out of it.
  const sign = signOfSynchronising(folder) ?? signOfSynchronising(realpathSync(existingPart(folder)));
  if (sign) {
    warnings.push(
      `The programme lies in a folder that is synchronised (${sign}): copies made while it is open may be torn. Keep it elsewhere and let “keelrow export” write into that folder.`,
    );
  }
  return warnings;
}

/** The part of a path by which it is known to be synchronised, or the mark that a program left above it. */
function signOfSynchronising(folder: string): string | undefined {
  const parts = folder.split(sep);
  const named = parts.find((part) => synchronised.some((pattern) => pattern.test(part)));
  const isMarked = parts.some((_, index) => existsSync(join(sep, ...parts.slice(1, index + 1), '.stfolder')));
  return named ?? (isMarked ? '.stfolder' : undefined);
}

/** The folder itself, or the nearest one above it that is there. */
function existingPart(folder: string): string {
  let existing = folder;
  while (!existsSync(existing) && dirname(existing) !== existing) existing = dirname(existing);
  return existing;
}

function networkTypeOf(folder: string): string | undefined {
  try {
    return networkTypes.get(Number(statfsSync(existingPart(folder)).type) >>> 0);
  } catch {
    return undefined;
  }
}
