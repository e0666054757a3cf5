// Says as JSON how many notes, genets and acts a programme holds, and whether SQLite finds its file whole.
import Database from 'better-sqlite3';

const database = new Database(process.argv[2], { readonly: true });
const count = (table) => database.prepare(`select count(*) from ${table}`).pluck().get();
console.log(
  JSON.stringify({
    notes: count('notes'),
    genets: count('genets'),
    acts: count('acts'),
    integrity: database.pragma('integrity_check', { simple: true }),
    loose: database.pragma('foreign_key_check').length,
  }),
);
