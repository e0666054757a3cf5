/**
 * POST /api/briefs/match { brief } (its code or id) starts a job whose result is a BriefMatch. Briefs and their limits
 * themselves are records: kinds `briefs` and `brief-limits` of /api/records.
 */
export type {
  BriefMatch,
  LimitMatch,
  LimitRead,
  MatchedTrait,
  PlantMatch,
} from '@keelrow/breeding/brief';
