import type { Family, FamilyLink, FamilyMember } from '@keelrow/server/contract';
import { useNavigate } from '@tanstack/react-router';
import { type KeyboardEvent, type ReactNode, useEffect, useMemo, useRef } from 'react';
import { counted } from '../parts/words.ts';
import './family-tree.css';
import { boxHeight, boxWidth, layOutFamily } from './layout.ts';
import { curveThrough, labelHeight, labelWidth, placeLabels } from './line-form.ts';
import { walkTo } from './walk.ts';

const sides: Record<FamilyLink['side'], string> = {
  seed: 'seed parent',
  pollen: 'pollen parent',
  self: 'selfed',
  clone: 'same genet, a sport or clone',
};

/** The family around one genet, drawn: ancestors above, descendants below, each a link to its own page. */
export function FamilyTree({ family }: { readonly family: Family }): ReactNode {
  const layout = useMemo(() => layOutFamily(family), [family]);
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
                <Box
                  key={member.id}
                  member={member}
                  x={place.x}
                  y={place.y}
                  self={member.id === family.self}
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

function Box({
  member,
  x,
  y,
  self,
}: {
  readonly member: FamilyMember;
  readonly x: number;
  readonly y: number;
  readonly self: boolean;
}): ReactNode {
  const navigate = useNavigate();
  const sibs = member.standsFor !== undefined && member.standsFor > 1 ? member.standsFor : null;
  const name = sibs ? `${sibs} sibs` : member.code;
  const below = sibs ? `${member.code} and others` : (member.name ?? member.origin ?? '');
  const [shownName, shownBelow] = [shortened(name, 17), shortened(below, 20)];
  return (
    <a
      href={`/plants/${encodeURIComponent(member.code)}`}
      data-member={member.id}
      aria-current={self ? 'true' : undefined}
      aria-label={[
        `${shownName} ${shownBelow}`.trim(),
        member.alive || sibs ? '' : 'gone',
        self ? 'this one' : '',
      ]
        .filter(Boolean)
        .join(', ')}
      className={`family-box ${self ? 'family-this' : ''} ${member.alive || sibs ? '' : 'family-gone'}`}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey) return;
        event.preventDefault();
        void navigate({ to: '/plants/$genet', params: { genet: member.code } });
      }}
    >
      {sibs && (
        <rect
          className="family-behind"
          x={x - boxWidth / 2 + 4}
          y={y - boxHeight / 2 - 4}
          width={boxWidth}
          height={boxHeight}
        />
      )}
      <rect x={x - boxWidth / 2} y={y - boxHeight / 2} width={boxWidth} height={boxHeight} />
      <text>
        <tspan x={x} y={below ? y - 3 : y + 5} className="family-code">
          {shownName}
        </tspan>
        {below && ' '}
        {below && (
          <tspan x={x} y={y + 14} className="family-name">
            {shownBelow}
          </tspan>
        )}
      </text>
    </a>
  );
}

const shortened = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 1)}…` : text;
