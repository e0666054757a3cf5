import { liveHistories } from './support/live-histories.ts';

/** With those on the other database 1,000; in files of their own, so that they run side by side. */
liveHistories('sqlite', 600, 4);
