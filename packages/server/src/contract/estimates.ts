/** POST /api/estimates { trait } starts a job whose result is an EstimatesReport; POST /api/estimates/compare { trait, a, b } one whose result is a PairCompared. */
export type { EstimatesReport, GenetEstimate, PairCompared } from '@keelrow/breeding/evaluation';
