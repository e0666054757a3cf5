import type { Family } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useMemo, useState } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { traitWriting } from '../compare/trait-shown.ts';
import { useReport } from '../estimates/report.ts';
import { InlineField } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Working } from '../parts/working.tsx';
import { isNotedElsewhere } from '../traits/noted-elsewhere.tsx';
import { FamilyTree } from './family-tree.tsx';
import { memberEstimates } from './member-estimates.ts';

/** The family tree, with the estimates of a chosen trait on each of its members. */
export function FamilyWithEstimates({ family }: { readonly family: Family }): ReactNode {
  const units = useUnits();
  const traits = useQuery(traitsQuery);
  const [trait, setTrait] = useState('');
  const { result: report, work, again } = useReport(trait, trait !== '');
  const estimates = useMemo(
    () =>
      trait !== '' && report ? memberEstimates(family, report, traitWriting(report.trait, units)) : null,
    [trait, report, family, units],
  );
  const shown = (traits.data ?? []).filter((one) => one.estimable && one.notes > 0 && !isNotedElsewhere(one));
  return (
    <>
      {shown.length > 0 && (
        <div>
          <InlineField label="Show estimates of">
            {(id) => (
              <select id={id} value={trait} onChange={(event) => setTrait(event.target.value)}>
                <option value="">no trait</option>
                {shown.map(({ code, name }) => (
                  <option key={code} value={code}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </InlineField>
        </div>
      )}
      {trait !== '' && <Working work={work} words="Working the estimates out" again={again} />}
      {estimates?.size === 0 && <p className="soft">None of this family can be estimated for this trait.</p>}
      <FamilyTree family={family} estimates={estimates?.size ? estimates : null} />
    </>
  );
}
