// The library asks for it before it is loaded itself.
import 'reflect-metadata';
import { createHash, randomBytes, webcrypto } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import {
  AuthorityKeyIdentifierExtension,
  BasicConstraintsExtension,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  PemConverter,
  SubjectAlternativeNameExtension,
  SubjectKeyIdentifierExtension,
  X509Certificate,
  X509CertificateGenerator,
} from '@peculiar/x509';
import { z } from 'zod';
import { RefusedError } from '../refusals.ts';
import { constrainedTo } from './name-constraints.ts';
import type { OwnNames } from './own-addresses.ts';

/** ECDSA on P-256 with SHA-256, which phones of the last ten years take. */
const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;
const aDay = 24 * 60 * 60_000;
const authorityDays = 3650;
/** The longest that browsers take; source: CA/Browser Forum Baseline Requirements, section 6.3.2 (from 2020). */
const leafDays = 397;

/** What a server needs to speak https. */
export interface Identity {
  /** PEM. */
  readonly key: string;
  /** PEM: the server's certificate and the authority's. */
  readonly cert: string;
  readonly ends: Date;
}

/** This computer's own certificate authority; its key never leaves the folder. */
export interface Authority {
  /** The authority's certificate, DER, as phones take it. */
  readonly der: Uint8Array;
  /** SHA-256 of it in pairs of hexadecimal digits, as phones show it. */
  readonly fingerprint: string;
  /** It was made just now: phones that trusted an earlier one must trust this one anew. */
  readonly isNew: boolean;
  /** A certificate for these names, at most 397 days long. */
  vouchFor(own: OwnNames, now: Date): Promise<Identity>;
}

/** The networks and names to which the authority is limited, kept beside it. */
const limits = z.object({ networks: z.array(z.string()), names: z.array(z.string()) });

/**
 * Opens the authority kept in a folder; makes one where there is none, where it is at its end, or where this computer
 * has come into a network that it may not vouch for. Throws RefusedError where its key can be read by others.
 */
export async function openAuthority(folder: string, own: OwnNames, now: Date): Promise<Authority> {
  const files = {
    key: join(folder, 'authority-key.pem'),
    certificate: join(folder, 'authority.pem'),
    limits: join(folder, 'authority-limits.json'),
  };
  const isKept = Object.values(files).every((file) => existsSync(file));
  const kept = isKept ? readKept(files, own, now) : null;
  const { key, certificate } = kept ?? (await makeAuthority(folder, files, own, now));
  const signingKey = await webcrypto.subtle.importKey(
    'pkcs8',
    PemConverter.decodeFirst(key),
    algorithm,
    false,
    ['sign'],
  );
  const der = new Uint8Array(certificate.rawData);
  return {
    der,
    fingerprint: createHash('sha256')
      .update(der)
      .digest('hex')
      .toUpperCase()
      .replace(/(..)(?=.)/g, '$1:'),
    isNew: kept === null,
    vouchFor: (names, moment) => vouch(certificate, signingKey, names, moment),
  };
}

type Files = Readonly<Record<'key' | 'certificate' | 'limits', string>>;

/** The kept authority; null where a new one is needed. */
function readKept(
  files: Files,
  own: OwnNames,
  now: Date,
): { key: string; certificate: X509Certificate } | null {
  // On Windows the folder's own rights decide; these bits say nothing there.
  if (process.platform !== 'win32' && (statSync(files.key).mode & 0o077) !== 0) {
    throw new RefusedError(409, {
      problem: `others on this computer can read the key of the certificate authority (${files.key})`,
      remedy: 'delete the folder that it lies in: a new authority is made, which phones must trust anew',
    });
  }
  const certificate = new X509Certificate(readFileSync(files.certificate, 'utf8'));
  const allowed = limits.parse(JSON.parse(readFileSync(files.limits, 'utf8')));
  const covers =
    own.addresses.every(({ network }) => allowed.networks.includes(network)) &&
    own.names.every((name) => allowed.names.includes(name));
  const lasts = certificate.notAfter.getTime() > now.getTime() + leafDays * aDay;
  return covers && lasts ? { key: readFileSync(files.key, 'utf8'), certificate } : null;
}

async function makeAuthority(
  folder: string,
  files: Files,
  own: OwnNames,
  now: Date,
): Promise<{ key: string; certificate: X509Certificate }> {
  const keys = await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
  const certificate = await X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: [{ CN: [`Keelrow on ${hostname().slice(0, 40)}, ${now.toISOString().slice(0, 10)}`] }],
    notBefore: new Date(now.getTime() - aDay),
    notAfter: new Date(now.getTime() + authorityDays * aDay),
    signingAlgorithm: algorithm,
    keys,
    extensions: [
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign, true),
      constrainedTo(own),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  const key = await pemOf(keys.privateKey);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeKept(files.key, key, 0o600);
  writeKept(
    files.limits,
    JSON.stringify({ networks: own.addresses.map(({ network }) => network), names: own.names }),
    0o644,
  );
  writeKept(files.certificate, certificate.toString('pem'), 0o644);
  return { key, certificate };
}

/** Writes a file whole or not at all, with its rights from the first byte on. */
function writeKept(file: string, text: string, mode: number): void {
  const partial = `${file}.part`;
  writeFileSync(partial, text, { mode });
  chmodSync(partial, mode);
  renameSync(partial, file);
}

async function vouch(
  authority: X509Certificate,
  signingKey: webcrypto.CryptoKey,
  { addresses, names }: OwnNames,
  now: Date,
): Promise<Identity> {
  const keys = await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
  const ends = new Date(now.getTime() + (leafDays - 1) * aDay);
  const certificate = await X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: [{ CN: ['Keelrow'] }],
    issuer: authority.subjectName,
    notBefore: new Date(now.getTime() - aDay),
    notAfter: ends,
    signingAlgorithm: algorithm,
    publicKey: keys.publicKey,
    signingKey,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension([
        ...addresses.map(({ address }) => ({ type: 'ip' as const, value: address })),
        ...names.map((value) => ({ type: 'dns' as const, value })),
      ]),
      await AuthorityKeyIdentifierExtension.create(authority.publicKey),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  const key = await pemOf(keys.privateKey);
  return { key, cert: `${certificate.toString('pem')}\n${authority.toString('pem')}\n`, ends };
}

/** A positive number of sixteen random bytes, in hexadecimal; source: RFC 5280, section 4.1.2.2. */
function serial(): string {
  const bytes = randomBytes(16);
  bytes[0] = (bytes[0]! & 0x7f) | 0x40;
  return bytes.toString('hex');
}

const pemOf = async (key: webcrypto.CryptoKey): Promise<string> =>
  PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');
