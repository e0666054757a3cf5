import type { TraitModel } from '@keelrow/server/contract';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useMemo } from 'react';
import { type TraitWriting, traitWriting } from '../compare/trait-shown.ts';
import { useUnits } from '../parts/measure.ts';
import { usePhone } from '../parts/use-media.ts';
import { counted } from '../parts/words.ts';
import { OnePanel } from './one-panel.tsx';
import { SmallPanel } from './panel.tsx';
import { ResidualLegend } from './residual-legend.tsx';
import { type BedPanels, panelsOf } from './residual-panels.ts';
import './residuals.css';

const route = getRouteApi('/traits/$trait');

/**
 * What the model leaves over, drawn where the plants stand: a small panel for each bed and year. Marks of one kind that
 * crowd together show a spot of a bed that is better or worse than the rest.
 */
export function Residuals({ model }: { readonly model: TraitModel }): ReactNode {
  const units = useUnits();
  const writing = useMemo(() => traitWriting(model.report.trait, units), [model.report.trait, units]);
  const beds = useMemo(() => panelsOf(model.residuals), [model.residuals]);
  return (
    <>
      <p>
        Each mark is a plant where it stands, held against what its genet, the season and all else in the
        model let expect. Where many marks of one kind crowd together, that spot of the bed is better or worse
        than the rest; years of one bed lie below each other, place under place. Choose a year to see it
        large.
      </p>
      <ResidualLegend isDay={writing.isDay} />
      <div className="residual-beds">
        {beds.map((bed) => (
          <Bed key={bed.bed ?? ''} bed={bed} model={model} writing={writing} />
        ))}
      </div>
    </>
  );
}

function Bed({
  bed,
  model,
  writing,
}: {
  readonly bed: BedPanels;
  readonly model: TraitModel;
  readonly writing: TraitWriting;
}): ReactNode {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const phone = usePhone();
  const name = bed.bed ?? 'none';
  const chosen = search.bed === name ? (bed.panels.find(({ year }) => year === search.year) ?? null) : null;
  return (
    <section aria-label={bed.bed ?? 'Plants outside any bed'} className="residual-bed">
      <h3>
        {bed.bed ? (
          <Link to="/beds/$bed" params={{ bed: bed.bed }}>
            {bed.bed}
          </Link>
        ) : (
          'Place not known'
        )}
        {bed.frame === null && <span className="small soft"> heaped from less to more than expected</span>}
      </h3>
      <ul className="residual-panels">
        {bed.panels.map((panel) => {
          const open = panel === chosen;
          return (
            <li key={panel.year}>
              <button
                type="button"
                className="residual-panel"
                aria-pressed={open}
                aria-label={`${bed.bed ?? 'Place not known'}, ${panel.year}: ${counted(panel.spots.length, 'plant')}`}
                onClick={() =>
                  void navigate({
                    search: open ? {} : { bed: name, year: panel.year },
                    replace: true,
                    resetScroll: false,
                  })
                }
              >
                <span>{panel.year}</span>
                <SmallPanel frame={bed.frame} panel={panel} phone={phone} />
              </button>
            </li>
          );
        })}
      </ul>
      {chosen && (
        <OnePanel
          key={chosen.year}
          frame={bed.frame}
          panel={chosen}
          writing={writing}
          asNoted={model.report.scale.name === 'as noted'}
        />
      )}
    </section>
  );
}
