import type { Family, FamilyLink } from '@keelrow/server/contract';
import { type KeyboardEvent, type ReactNode, useEffect, useMemo, useRef } from 'react';
import '../estimates/marks.css';
import { counted } from '../parts/words.ts';
import { FamilyBox } from './family-box.tsx';
import './family-tree.css';
import { boxHeight, layOutFamily } from './layout.ts';
import { curveThrough, labelHeight, labelWidth, placeLabels } from './line-form.ts';
import type { MemberEstimate } from './member-estimates.ts';
import { walkTo } from './walk.ts';

const sides: Record<FamilyLink['side'], string> = {
  seed: 'seed parent',
  pollen: 'pollen parent',
  self: 'selfed',
  clone: 'same genet, a sport or clone',
};

/** What an estimate adds to the height of a box. */
const estimateHeight = 26;

interface TreeProps {
  readonly family: Family;
  /** Estimates of one trait by member; null where none is shown. */
  readonly estimates: ReadonlyMap<string, MemberEstimate> | null;
}

/** The family around one genet, drawn: ancestors above, descendants below, each a link to its own page. */
export function FamilyTree({ family, estimates }: TreeProps): ReactNode {
  const tall = boxHeight + (estimates ? estimateHeight : 0);
  const layout = useMemo(() => layOutFamily(family, tall), [family, tall]);
  const scroller = useRef<HTMLDivElement>(null);
  const self = layout.places.get(family.self);

  useEffect(() => {
    const box = scroller.current;
    if (box && self) box.scrollLeft = self.x - box.clientWidth / 2;
  }, [self]);

  const walk = (event: KeyboardEvent): void => {
    const from = document.activeElement?.getAttribute('data-member');
    const to = from ? walkTo(layout, from, event.key) : null;
    if (to === null) return;
    event.preventDefault();
    const box = scroller.current?.querySelector<SVGAElement>(`[data-member="${CSS.escape(to)}"]`);
    box?.focus();
    box?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  };

  const possible = layout.lines.filter(({ link }) => link.chance < 1);
  const labels = placeLabels(possible.map(({ points }) => points));
  const used = [...new Set(family.links.map(({ side }) => side))];
  return (
    <figure className="family">
      <section ref={scroller} className="family-scroller" aria-label="Family tree" onKeyDown={walk}>
        <svg width={layout.width} height={layout.height} viewBox={`0 0 ${layout.width} ${layout.height}`}>
          <title>Family tree: parents above, progeny below</title>
          {layout.lines.map(({ link, points }) => (
            <g key={`${link.parent} ${link.child} ${link.side}`} className={lineClass(link)}>
              <path d={curveThrough(points)} />
              {link.side === 'self' && <path className="family-inner" d={curveThrough(points)} />}
            </g>
          ))}
          {possible.map(({ link }, index) => {
            const at = labels[index]!;
            return (
              <g key={`${link.parent} ${link.child} ${link.side}`} className="family-chance">
                <rect
                  x={at.x - labelWidth / 2}
                  y={at.y - labelHeight / 2}
                  width={labelWidth}
                  height={labelHeight}
                  rx={2}
                />
                <text x={at.x} y={at.y + 4}>
                  {Math.round(link.chance * 100)}%
                </text>
              </g>
            );
          })}
          {family.members.map((member) => {
            const place = layout.places.get(member.id);
            return (
              place && (
                <FamilyBox
                  key={member.id}
                  member={member}
                  x={place.x}
                  y={place.y}
                  tall={tall}
                  self={member.id === family.self}
                  estimate={estimates ? (estimates.get(member.id) ?? null) : undefined}
                />
              )
            );
          })}
        </svg>
      </section>
      <figcaption>
        <ul className="family-legend">
          {used.map((side) => (
            <li key={side}>
              <svg width="36" height="12" aria-hidden="true" className={`family-line family-${side}`}>
                <path d="M1 6H35" />
                {side === 'self' && <path className="family-inner" d="M1 6H35" />}
              </svg>
              {sides[side]}
            </li>
          ))}
          {family.links.some(({ chance }) => chance < 1) && (
            <li>a thin line: possible parent, with its chance</li>
          )}
          {estimates && <li>a bar: the truth lies in it 8 times out of 10, on one line for all</li>}
          {estimates && [...estimates.values()].some(({ ofSibs }) => ofSibs) && (
            <li>
              <svg width="36" height="12" aria-hidden="true">
                <path className="family-spread" d="M2 2V10M2 6H34M34 2V10" />
                <circle className="estimate-dot" cx="18" cy="6" r="4" />
              </svg>
              many sibs: the mean of their estimates, and how far these reach
            </li>
          )}
        </ul>
        <More {...family.more} />
      </figcaption>
    </figure>
  );
}

function More({ up, down }: Family['more']): ReactNode {
  if (up === 0 && down === 0) return null;
  const words = [up > 0 && counted(up, 'ancestor'), down > 0 && counted(down, 'descendant')].filter(Boolean);
  return <p className="small soft">Beyond this drawing: {words.join(' and ')}.</p>;
}

const lineClass = ({ side, chance }: FamilyLink): string =>
  `family-line family-${side} ${chance < 1 ? 'family-possible' : ''}`;
