import { useQuery } from '@tanstack/react-query';
import { programmeQuery } from '../api/queries.ts';

/** Today's date in the garden's time zone, by the server; this device's own until the server has spoken. */
export function useToday(): string {
  const { data } = useQuery(programmeQuery);
  if (data) return data.today;
  const now = new Date();
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
