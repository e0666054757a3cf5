/// <reference lib="webworker" />
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';
import type { ShellFile } from './shell-file.ts';

declare const self: ServiceWorkerGlobalScope;
/** The app's own files; written in by the build. */
declare const __SHELL__: ShellFile[];

/*
 * Keeps the app's own files on the device, so that it opens without a network. Answers of the server are not kept
 * here: what a walk needs lies in the phone's database, with its age told.
 */
precacheAndRoute(__SHELL__, { cleanURLs: false, ignoreURLParametersMatching: [] });
cleanupOutdatedCaches();
registerRoute(
  new NavigationRoute(createHandlerBoundToURL('/index.html'), {
    denylist: [/^\/api\//, /^\/[^/]+\.[a-z]+$/],
  }),
);

// A new version waits until the person asks for it: nothing changes under the hands of somebody who takes notes.
self.addEventListener('message', (event) => {
  if (event.data === 'take over') void self.skipWaiting();
});
// The very first version looks after the page that fetched it at once.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
