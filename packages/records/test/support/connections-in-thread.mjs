// Opens a programme in a worker thread, as the server's long work does, and tells the settings of each connection.
import { parentPort, workerData } from 'node:worker_threads';
import Database from 'better-sqlite3';
import { openProgramme } from '../../dist/index.js';

// A connection that is of any use passes through one of these.
const opened = new Set();
for (const name of ['pragma', 'prepare', 'exec']) {
  const own = Database.prototype[name];
  Database.prototype[name] = function (...given) {
    opened.add(this);
    return own.apply(this, given);
  };
}
const programme = await openProgramme(workerData.where);
const settings = [...opened].map((database) =>
  ['synchronous', 'journal_mode', 'foreign_keys'].map((name) => database.pragma(name, { simple: true })),
);
await programme.close();
parentPort.postMessage({ settings, stillOpen: [...opened].filter(({ open }) => open).length });
