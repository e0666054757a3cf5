import type { PlantListRow } from '@keelrow/server/contract';
import { useQueries } from '@tanstack/react-query';
import { type PlantsWanted, plantsPageSize, plantsQuery } from '../api/queries.ts';

/** The pages of 200 rows that the rows in sight lie on. */
export function pagesFor(first: number, last: number, total: number): number[] {
  const end = Math.max(0, Math.min(last, total - 1));
  const from = Math.floor(Math.max(0, first) / plantsPageSize);
  const to = Math.floor(end / plantsPageSize);
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => from + index);
}

/** Rows by number; undefined while their page is still on its way. */
export function usePlantRows(
  wanted: PlantsWanted,
  first: number,
  last: number,
  total: number,
): (index: number) => PlantListRow | undefined {
  const pages = pagesFor(first, last, total);
  const answers = useQueries({ queries: pages.map((page) => plantsQuery(wanted, page)) });
  return (index) => {
    const page = Math.floor(index / plantsPageSize);
    return answers[pages.indexOf(page)]?.data?.rows[index - page * plantsPageSize];
  };
}
