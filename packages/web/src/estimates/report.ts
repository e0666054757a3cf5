import type { EstimatesReport } from '@keelrow/server/contract';
import { useWorkedOut, type WorkedOut } from '../api/worked-out.ts';

/** Estimates of every genet for one trait. */
export const useReport = (trait: string, wanted = true): WorkedOut<EstimatesReport> =>
  useWorkedOut<EstimatesReport>(['estimates', trait], 'estimates', { trait }, wanted);
