import type { Refusal } from '@keelrow/server/contract';
import { ApiError, outOfReach } from './api-error.ts';

type Query = Readonly<Record<string, string | number | boolean | null | undefined>>;

/** An address below /api with its query; fields that are empty or undefined are left out. */
function address(path: string, query: Query = {}): string {
  const given = Object.entries(query).filter(
    ([, value]) => value !== undefined && value !== null && value !== '',
  );
  const search = new URLSearchParams(given.map(([name, value]) => [name, String(value)]));
  return `/api/${path}${given.length > 0 ? `?${search}` : ''}`;
}

/** A part of a path that may hold any character, a slash included. */
export const part = encodeURIComponent;

async function ask<Answer>(url: string, request: RequestInit): Promise<Answer> {
  const response = await fetch(url, { credentials: 'same-origin', ...request }).catch(() => {
    if (request.signal?.aborted) throw new DOMException('stopped', 'AbortError');
    throw outOfReach();
  });
  if (response.ok) {
    const text = await response.text();
    return (text === '' ? null : JSON.parse(text)) as Answer;
  }
  throw new ApiError(response.status, await refusalIn(response));
}

async function refusalIn(response: Response): Promise<Refusal['error']> {
  const body: unknown = await response.json().catch(() => null);
  if (body && typeof body === 'object' && 'error' in body) {
    const { error } = body as { error: unknown };
    if (error && typeof error === 'object' && 'problem' in error) return error as Refusal['error'];
  }
  return response.status >= 502 && response.status <= 504
    ? { problem: outOfReach().message, remedy: outOfReach().remedy ?? '' }
    : { problem: `The server answered with status ${response.status} and gave no reason.` };
}

export const get = <Answer>(path: string, query?: Query, signal?: AbortSignal): Promise<Answer> =>
  ask<Answer>(address(path, query), signal ? { signal } : {});

export const send = <Answer>(
  method: 'POST' | 'PUT' | 'PATCH' | 'DELETE',
  path: string,
  body?: unknown,
  signal?: AbortSignal,
): Promise<Answer> =>
  ask<Answer>(
    address(path),
    body === undefined
      ? // What is stopped or struck out on leaving the page shall still arrive.
        { method, keepalive: true }
      : {
          method,
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
          ...(signal ? { signal } : {}),
        },
  );

/** Asks for a file by what it shall hold, such as a PDF. */
export async function sendForFile(path: string, body: unknown): Promise<Blob> {
  const response = await fetch(address(path), {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }).catch(() => {
    throw outOfReach();
  });
  if (!response.ok) throw new ApiError(response.status, await refusalIn(response));
  return response.blob();
}

/** Sends a file as it is. */
export const sendFile = <Answer>(path: string, query: Query, file: File): Promise<Answer> =>
  ask<Answer>(address(path, query), {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: file,
  });

/** Sends bytes as they are. */
export const putBytes = <Answer>(
  path: string,
  bytes: ArrayBuffer,
  mediaType: string,
  signal: AbortSignal,
): Promise<Answer> =>
  ask<Answer>(address(path), { method: 'PUT', headers: { 'content-type': mediaType }, body: bytes, signal });
