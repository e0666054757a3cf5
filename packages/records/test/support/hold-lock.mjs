// Holds the lock for writing of a programme's file until this process is ended, or for so many milliseconds.
import { writeSync } from 'node:fs';
import Database from 'better-sqlite3';

const [file, milliseconds] = process.argv.slice(2);
const database = new Database(file);
database.exec('begin immediate');
writeSync(1, 'held\n');
setTimeout(() => database.close(), Number(milliseconds ?? 60_000));
