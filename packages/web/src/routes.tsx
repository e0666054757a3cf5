import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  redirect,
} from '@tanstack/react-router';
import { programmeQuery, queryClient } from './api/queries.ts';
import { readPlantsSearch } from './plants/plants-search.ts';
import { oneOf, text, whole } from './search-words.ts';
import { ErrorScreen } from './shell/error-screen.tsx';
import { NotFound } from './shell/not-found.tsx';
import { Shell } from './shell/shell.tsx';
import { SignIn } from './shell/sign-in.tsx';

/** What stands in an address, unread. */
type Given = Record<string, unknown>;
type Word = string | undefined;
type Count = number | undefined;
type Yes = true | undefined;

const root = createRootRoute({ component: Shell, notFoundComponent: NotFound, errorComponent: ErrorScreen });

/** Opened from a phone's home screen the app begins where it is needed in the beds. */
const installedOnPhone = (): boolean =>
  matchMedia('(display-mode: standalone)').matches && matchMedia('(pointer: coarse)').matches;

const start = createRoute({
  getParentRoute: () => root,
  path: '/',
  beforeLoad: async () => {
    const known = await queryClient.ensureQueryData(programmeQuery).catch(() => null);
    // What the server said some time ago may be from before the garden was brought in.
    const programme =
      known?.counts.genets === 0 ? await queryClient.fetchQuery(programmeQuery).catch(() => known) : known;
    if (programme && programme.counts.genets > 0)
      throw redirect({ to: installedOnPhone() ? '/walk' : '/plants' });
  },
  component: lazyRouteComponent(() => import('./beginning/beginning.tsx'), 'Beginning'),
});

const signIn = createRoute({ getParentRoute: () => root, path: '/sign-in', component: SignIn });

const plants = createRoute({
  getParentRoute: () => root,
  path: '/plants',
  validateSearch: readPlantsSearch,
  component: lazyRouteComponent(() => import('./plants/plants.tsx'), 'Plants'),
});

const genet = createRoute({
  getParentRoute: () => root,
  path: '/plants/$genet',
  component: lazyRouteComponent(() => import('./genet/genet.tsx'), 'Genet'),
});

const notes = createRoute({
  getParentRoute: () => root,
  path: '/notes',
  validateSearch: (search: Given): { place?: Word; traits?: Word; on?: Word } => ({
    place: text(search.place),
    traits: text(search.traits),
    on: text(search.on),
  }),
  component: lazyRouteComponent(() => import('./notes/notes.tsx'), 'Notes'),
});

const beds = createRoute({
  getParentRoute: () => root,
  path: '/beds',
  validateSearch: (search: Given): { site?: Word } => ({ site: text(search.site) }),
  component: lazyRouteComponent(() => import('./beds/beds.tsx'), 'Beds'),
});

const bed = createRoute({
  getParentRoute: () => root,
  path: '/beds/$bed',
  validateSearch: (search: Given): { trait?: Word; year?: Count } => ({
    trait: text(search.trait),
    year: whole(search.year),
  }),
  component: lazyRouteComponent(() => import('./beds/bed.tsx'), 'Bed'),
});

const compare = createRoute({
  getParentRoute: () => root,
  path: '/compare',
  validateSearch: (
    search: Given,
  ): { trait?: Word; as?: 'parent' | undefined; unnoted?: Yes; best?: Count } => ({
    trait: text(search.trait),
    as: oneOf(search.as, ['parent'] as const),
    unnoted: search.unnoted === true || undefined,
    best: whole(search.best),
  }),
  component: lazyRouteComponent(() => import('./compare/compare.tsx'), 'Compare'),
});

const trait = createRoute({
  getParentRoute: () => root,
  path: '/traits/$trait',
  validateSearch: (search: Given): { bed?: Word; year?: Count } => ({
    bed: text(search.bed),
    year: whole(search.year),
  }),
  component: lazyRouteComponent(() => import('./traits/trait.tsx'), 'Trait'),
});

const winters = createRoute({
  getParentRoute: () => root,
  path: '/winters',
  validateSearch: (search: Given): { origin?: Word } => ({ origin: text(search.origin) }),
  component: lazyRouteComponent(() => import('./winters/winters.tsx'), 'Winters'),
});

const briefs = createRoute({
  getParentRoute: () => root,
  path: '/briefs',
  component: lazyRouteComponent(() => import('./briefs/briefs.tsx'), 'Briefs'),
});

const brief = createRoute({
  getParentRoute: () => root,
  path: '/briefs/$brief',
  component: lazyRouteComponent(() => import('./briefs/brief.tsx'), 'Brief'),
});

const labels = createRoute({
  getParentRoute: () => root,
  path: '/labels',
  validateSearch: (
    search: Given,
  ): { of?: 'plants' | 'crosses' | 'seed-lots' | 'sowings' | 'batches' | undefined; place?: Word } => ({
    of: oneOf(search.of, ['plants', 'crosses', 'seed-lots', 'sowings', 'batches'] as const),
    place: text(search.place),
  }),
  component: lazyRouteComponent(() => import('./labels/labels.tsx'), 'Labels'),
});

const pictures = createRoute({
  getParentRoute: () => root,
  path: '/pictures',
  validateSearch: (search: Given): { search?: Word; trait?: Word; from?: Word; to?: Word; page?: Count } => ({
    search: text(search.search),
    trait: text(search.trait),
    from: text(search.from),
    to: text(search.to),
    page: whole(search.page),
  }),
  component: lazyRouteComponent(() => import('./pictures/pictures.tsx'), 'PicturesFound'),
});

const phones = createRoute({
  getParentRoute: () => root,
  path: '/phones',
  component: lazyRouteComponent(() => import('./phones/phones.tsx'), 'PhonesAndPeople'),
});

const unsettled = createRoute({
  getParentRoute: () => root,
  path: '/unsettled',
  component: lazyRouteComponent(() => import('./unsettled/unsettled.tsx'), 'UnsettledNotes'),
});

const paper = createRoute({
  getParentRoute: () => root,
  path: '/paper',
  component: lazyRouteComponent(() => import('./paper/paper.tsx'), 'Paper'),
});

const paperSheet = createRoute({
  getParentRoute: () => root,
  path: '/paper/$sheet',
  component: lazyRouteComponent(() => import('./paper/paper-sheet.tsx'), 'PaperSheet'),
});

const bringIn = createRoute({
  getParentRoute: () => root,
  path: '/import',
  component: lazyRouteComponent(() => import('./import/import.tsx'), 'Import'),
});

const programme = createRoute({
  getParentRoute: () => root,
  path: '/programme',
  component: lazyRouteComponent(() => import('./programme/programme.tsx'), 'Programme'),
});

const records = createRoute({
  getParentRoute: () => root,
  path: '/programme/$kind',
  validateSearch: (search: Given): { search?: Word; page?: Count } => ({
    search: text(search.search),
    page: whole(search.page),
  }),
  component: lazyRouteComponent(() => import('./records/records.tsx'), 'Records'),
});

const phone = createRoute({
  getParentRoute: () => root,
  path: '/phone',
  component: lazyRouteComponent(() => import('./phone/phone-screen.tsx'), 'PhoneScreen'),
});

const walkRounds = createRoute({
  getParentRoute: () => root,
  path: '/walk',
  component: lazyRouteComponent(() => import('./walk/rounds/rounds-screen.tsx'), 'Rounds'),
});

const newRound = createRoute({
  getParentRoute: () => root,
  path: '/walk/new',
  component: lazyRouteComponent(() => import('./walk/rounds/new-round.tsx'), 'NewRound'),
});

const walk = createRoute({
  getParentRoute: () => root,
  path: '/walk/$round',
  component: lazyRouteComponent(() => import('./walk/walk.tsx'), 'Walk'),
});

export const router = createRouter({
  routeTree: root.addChildren([
    start,
    signIn,
    plants,
    genet,
    notes,
    walkRounds,
    newRound,
    walk,
    beds,
    bed,
    compare,
    trait,
    winters,
    briefs,
    brief,
    labels,
    paper,
    paperSheet,
    phones,
    unsettled,
    pictures,
    bringIn,
    programme,
    records,
    phone,
  ]),
  defaultPreload: 'intent',
  defaultErrorComponent: ErrorScreen,
  scrollRestoration: true,
  scrollToTopSelectors: ['#screen'],
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
