import type { WintersReport } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import { type ReactNode, useMemo, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { SearchBox } from '../parts/search-box.tsx';
import { counted } from '../parts/words.ts';
import { ChanceTable, lineOf } from './chance-table.tsx';
import { rankedGenets, type WinterGenet } from './ranked-genets.ts';

const step = 50;

/** Genets by the chance of their plants to come through a later winter, the likeliest first. */
export function WinterGenets({ report }: { readonly report: WintersReport }): ReactNode {
  const [search, setSearch] = useState('');
  const [withGone, setWithGone] = useState(false);
  const [most, setMost] = useState(step);
  const ranked = useMemo(() => rankedGenets(report.genets, withGone), [report, withGone]);
  const line = useMemo(() => lineOf(report.genets), [report]);
  const gone = report.genets.filter(({ alive }) => alive === 0).length;
  const wanted = search.trim().toLowerCase();
  const found = ranked.filter(({ genet: { code, name, origin } }) =>
    [code, name ?? '', origin].some((words) => words.toLowerCase().includes(wanted)),
  );
  const rows = found.slice(0, most);
  return (
    <>
      <div className="winters-bar">
        <SearchBox
          name="Search among the genets"
          placeholder="Code, name or origin"
          value={search}
          onSearch={setSearch}
        />
        {gone > 0 && (
          <label className="ticked">
            <input
              type="checkbox"
              checked={withGone}
              onChange={(event) => setWithGone(event.target.checked)}
            />
            <span>and {counted(gone, 'genet')} of which no plant stands</span>
          </label>
        )}
      </div>
      {!report.genetsDiffer && (
        <p>
          Genets of one origin do not differ beyond chance, so each has the chance of its origin: what one
          lost and another kept was luck, as far as the notes can tell.
        </p>
      )}
      {rows.length > 0 && (
        <ChanceTable
          of="Genet"
          label="Genets by their chance to come through a winter"
          line={line}
          rows={rows.map(({ genet, rank, shared }) => ({
            ...genet,
            key: genet.id,
            rank: `${rank}${shared ? '=' : ''}`,
            name: <GenetName genet={genet} />,
          }))}
        />
      )}
      <p className="small soft" role="status">
        {found.length === 0
          ? 'No genet is called that.'
          : `${counted(rows.length, 'genet')} of ${found.length.toLocaleString('en-US')}.`}
      </p>
      {found.length > rows.length && (
        <div>
          <Button onClick={() => setMost((now) => now + step)}>Show {step} more</Button>
        </div>
      )}
    </>
  );
}

function GenetName({ genet: { code, name, origin, alive } }: { readonly genet: WinterGenet }): ReactNode {
  return (
    <>
      <Link to="/plants/$genet" params={{ genet: code }} preload={false}>
        {code}
      </Link>
      {name && ` ${name}`} <span className="small soft">{alive === 0 ? `${origin}, gone` : origin}</span>
    </>
  );
}
