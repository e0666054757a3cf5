import type { LimitMatch, LimitRead, PlantMatch } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { colourOnScreen } from '../parts/colour-on-screen.ts';
import { Icon } from '../parts/icon.tsx';
import { Chance } from './chance.tsx';

export interface MatchListProps {
  readonly limits: readonly LimitRead[];
  readonly rows: readonly { readonly plant: PlantMatch; readonly rank: number }[];
}

/** One row a genet: its chance to meet all musts, each limit's own chance, and what stands in the way. */
export function MatchTable({ limits, rows }: MatchListProps): ReactNode {
  // One wish alone is told by its own column.
  const wishes = limits.filter(({ must }) => !must).length > 1;
  return (
    <section className="match-table" aria-label="Plants by their chance to meet the brief">
      <table>
        <thead>
          <tr>
            <th scope="col">Rank</th>
            <th scope="col">Genet</th>
            <th scope="col">All musts</th>
            {numbered(limits).map(({ words, must, at }) => (
              <th key={at} scope="col" className="match-limit">
                <span className="soft">{must ? 'must' : 'wish'}</span> {words}
              </th>
            ))}
            {wishes && <th scope="col">Wishes met</th>}
            <th scope="col">What stands in the way</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ plant, rank }) => (
            <tr key={plant.id}>
              <td className="soft">{rank}</td>
              <th scope="row">
                <GenetLink plant={plant} />
              </th>
              <td className="match-all">
                <Chance chance={plant.chance} title={errorWords(plant)} />
              </td>
              {numbered(plant.limits).map((limit) => (
                <td key={limit.at} className={limit.inTheWay ? 'match-cell match-in-the-way' : 'match-cell'}>
                  {limit.inTheWay && <Icon name="heed" size={15} />}
                  <Chance chance={limit.chance} title={limit.words} />
                  <LikelyColour limit={limit} />
                  <span className="for-readers-only">{likely(limit)}</span>
                </td>
              ))}
              {wishes && (
                <td>
                  <Chance
                    chance={plant.wishes}
                    title="Share of the wishes’ weight that it is likely to meet"
                  />
                </td>
              )}
              <td className="match-words">{plant.inTheWay || <span className="soft">nothing much</span>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function GenetLink({ plant }: { readonly plant: PlantMatch }): ReactNode {
  return (
    <>
      <Link to="/plants/$genet" params={{ genet: plant.code }} preload={false}>
        {plant.code}
      </Link>
      {plant.name && ` ${plant.name}`}
      {plant.standard && <span className="standard-mark">standard</span>}
      {plant.notes === 0 && <span className="small soft"> no notes, by its kin</span>}
    </>
  );
}

/** Limits with their places, which never change: two of them may read alike. */
export const numbered = <Limit,>(limits: readonly Limit[]): (Limit & { readonly at: number })[] =>
  limits.map((limit, at) => ({ ...limit, at }));

/** The colour that the genet most likely is, as a swatch. */
export function LikelyColour({ limit: { colour, words } }: { readonly limit: LimitMatch }): ReactNode {
  if (!colour) return null;
  return <span className="match-colour" style={{ background: colourOnScreen(colour) }} title={words} />;
}

const likely = ({ words, inTheWay }: LimitMatch): string =>
  [words, inTheWay ? 'this stands in the way' : ''].filter(Boolean).join('; ');

const errorWords = ({ chanceError }: PlantMatch): string =>
  chanceError > 0.0005
    ? `found by drawing lots; give or take ${(200 * chanceError).toFixed(1)} points`
    : 'chance to meet all musts at once';
