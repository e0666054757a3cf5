import type { FamilyMember } from '@keelrow/server/contract';
import { useNavigate } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { boxHeight, boxWidth } from './layout.ts';
import type { MemberEstimate } from './member-estimates.ts';

interface BoxProps {
  readonly member: FamilyMember;
  readonly x: number;
  readonly y: number;
  readonly tall: number;
  readonly self: boolean;
  /** Its estimate of the trait shown; null where there is none, undefined where no trait is shown. */
  readonly estimate: MemberEstimate | null | undefined;
}

/** One member of the family: code, name, and its estimate where a trait is shown. */
export function FamilyBox({ member, x, y, tall, self, estimate }: BoxProps): ReactNode {
  const navigate = useNavigate();
  const sibs = member.standsFor?.length ?? null;
  const name = sibs ? `${sibs} sibs` : member.code;
  const below = sibs ? `${member.code} and others` : (member.name ?? member.origin ?? '');
  const [shownName, shownBelow] = [shortened(name, 17), shortened(below, 20)];
  const [left, top] = [x - boxWidth / 2, y - tall / 2];
  const middle = top + boxHeight / 2;
  return (
    <a
      href={`/plants/${encodeURIComponent(member.code)}`}
      data-member={member.id}
      aria-current={self ? 'true' : undefined}
      // Begins with what is seen, so that it can be called by it (WCAG 2.2, 2.5.3).
      aria-label={[
        [shownName, shownBelow, estimate?.value, estimate?.range].filter(Boolean).join(' '),
        estimate?.words,
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
      {sibs && <rect className="family-behind" x={left + 4} y={top - 4} width={boxWidth} height={tall} />}
      <rect x={left} y={top} width={boxWidth} height={tall} />
      <text>
        <tspan x={x} y={below ? middle - 3 : middle + 5} className="family-code">
          {shownName}
        </tspan>
        {below && ' '}
        {below && (
          <tspan x={x} y={middle + 14} className="family-name">
            {shownBelow}
          </tspan>
        )}
      </text>
      {estimate && ' '}
      {estimate && <Estimate estimate={estimate} x={x} top={top + boxHeight} />}
    </a>
  );
}

/** The estimate with its range: in figures, and as a bar on one line for the whole family. */
function Estimate({
  estimate: { value, range, at, ofSibs },
  x,
  top,
}: {
  readonly estimate: MemberEstimate;
  readonly x: number;
  readonly top: number;
}): ReactNode {
  const place = (share: number): number => x - boxWidth / 2 + 8 + share * (boxWidth - 16);
  return (
    <>
      <text className="family-estimate">
        <tspan x={x} y={top + 8}>
          <tspan className="family-value">{value}</tspan> <tspan className="family-name">{range}</tspan>
        </tspan>
      </text>
      {ofSibs ? (
        <path
          className="family-spread"
          d={`M${place(at.low)} ${top + 14}V${top + 22}M${place(at.low)} ${top + 18}H${place(at.high)}M${place(at.high)} ${top + 14}V${top + 22}`}
        />
      ) : (
        <line className="range-bar" x1={place(at.low)} x2={place(at.high)} y1={top + 18} y2={top + 18} />
      )}
      <circle className="estimate-dot" cx={place(at.value)} cy={top + 18} r="4" />
    </>
  );
}

const shortened = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, most - 1)}…` : text;
