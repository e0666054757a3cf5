import type { ReactNode } from 'react';
import { Chance } from './chance.tsx';
import { GenetLink, LikelyColour, type MatchListProps, numbered } from './match-table.tsx';

/** The same for a phone: a card a genet, each limit below a fold. */
export function MatchCards({ limits, rows }: MatchListProps): ReactNode {
  return (
    <ol className="match-cards" aria-label="Plants by their chance to meet the brief">
      {rows.map(({ plant, rank }) => (
        <li key={plant.id}>
          <p className="match-card-head">
            <span>
              <span className="soft">{rank}</span> <GenetLink plant={plant} />
            </span>
            <Chance chance={plant.chance} />
          </p>
          {plant.inTheWay && <p className="small">{plant.inTheWay}</p>}
          <details className="fold">
            <summary>Each limit</summary>
            <ul className="match-card-limits">
              {numbered(plant.limits).map((limit) => (
                <li key={limit.at}>
                  <span>
                    <span className="soft">{limit.must ? 'must' : 'wish'}</span> {limits[limit.at]?.words}
                    <br />
                    <span className="small soft">{limit.words}</span>
                  </span>
                  <span>
                    <Chance chance={limit.chance} />
                    <LikelyColour limit={limit} />
                  </span>
                </li>
              ))}
            </ul>
          </details>
        </li>
      ))}
    </ol>
  );
}
