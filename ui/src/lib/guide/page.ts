import type { PlainKey } from '$lib/messages';

/** The pages of the guide, in the order of the work, by what they belong to. */
export const GROUPS = {
  road: ['gauge_at_taps'],
  hand: ['valve_train', 'free_movement', 'wear_marks', 'light_check', 'wiggle_check', 'end_plug'],
  vacuum: [
    ...(['vacuum_test', 'stand', 'air', 'setup', 'stand_check', 'blank', 'readings'] as const),
    ...(['oil_film', 'after_cleaning'] as const),
  ],
  measuring: ['diameters', 'spring', 'orifice_bore'],
  body: [
    ...(['flatness', 'plate_and_balls', 'porosity', 'feed_screens'] as const),
    ...(['solenoid_resistance', 'leak_and_flow', 'clutch_air'] as const),
  ],
  judgement: ['judgement', 'uncertainty', 'leak_to_pressure', 'disagreement', 'decision'],
  repair: ['repair', 'relief', 'proof'],
  records: ['cautions', 'units', 'journal', 'passing_on', 'lost_phone'],
} as const;

export type Group = keyof typeof GROUPS;
export type PageId = (typeof GROUPS)[Group][number];

export const PAGE_IDS: readonly PageId[] = Object.values(GROUPS).flat();

export const isPage = (text: string | undefined): text is PageId =>
  (PAGE_IDS as readonly (string | undefined)[]).includes(text);

/** What a page is called: known without loading any page. */
export const PAGE_TITLES = {
  gauge_at_taps: 'guide.page.gauge_at_taps',
  valve_train: 'guide.page.valve_train',
  free_movement: 'guide.page.free_movement',
  wear_marks: 'guide.page.wear_marks',
  light_check: 'guide.page.light_check',
  wiggle_check: 'guide.page.wiggle_check',
  end_plug: 'guide.page.end_plug',
  vacuum_test: 'guide.page.vacuum_test',
  stand: 'guide.page.stand',
  air: 'guide.page.air',
  setup: 'guide.page.setup',
  stand_check: 'guide.page.stand_check',
  blank: 'guide.page.blank',
  readings: 'guide.page.readings',
  oil_film: 'guide.page.oil_film',
  after_cleaning: 'guide.page.after_cleaning',
  diameters: 'guide.page.diameters',
  spring: 'guide.page.spring',
  orifice_bore: 'guide.page.orifice_bore',
  flatness: 'guide.page.flatness',
  plate_and_balls: 'guide.page.plate_and_balls',
  porosity: 'guide.page.porosity',
  feed_screens: 'guide.page.feed_screens',
  solenoid_resistance: 'guide.page.solenoid_resistance',
  leak_and_flow: 'guide.page.leak_and_flow',
  clutch_air: 'guide.page.clutch_air',
  judgement: 'guide.page.judgement',
  uncertainty: 'guide.page.uncertainty',
  leak_to_pressure: 'guide.page.leak_to_pressure',
  disagreement: 'guide.page.disagreement',
  decision: 'guide.page.decision',
  repair: 'guide.page.repair',
  relief: 'guide.page.relief',
  proof: 'guide.page.proof',
  cautions: 'guide.page.cautions',
  units: 'guide.page.units',
  journal: 'guide.page.journal',
  passing_on: 'guide.page.passing_on',
  lost_phone: 'guide.page.lost_phone',
} as const satisfies Record<PageId, PlainKey>;

export const GROUP_TITLES = {
  road: 'guide.group.road',
  hand: 'guide.group.hand',
  vacuum: 'guide.group.vacuum',
  measuring: 'guide.group.measuring',
  body: 'guide.group.body',
  judgement: 'guide.group.judgement',
  repair: 'guide.group.repair',
  records: 'guide.group.records',
} as const satisfies Record<Group, PlainKey>;

/** Where a claim comes from: what the trade does without anybody having written it down, or a work. */
export type Source = 'practice' | { readonly work: string };

/** A drawing's name, see components/guide/drawings. */
export type DrawingId =
  | 'gauge'
  | 'train'
  | 'slide'
  | 'wear'
  | 'light'
  | 'wiggle'
  | 'plug'
  | 'vacuum'
  | 'stand_check'
  | 'blank'
  | 'turned'
  | 'film'
  | 'stations'
  | 'spring'
  | 'pins'
  | 'flatness'
  | 'porosity'
  | 'screen'
  | 'ohms'
  | 'clutch'
  | 'interval'
  | 'loop'
  | 'relief';

/** One page. Its title is in the catalogue, since a link to it needs it before it is loaded. */
export interface GuidePage {
  /** What it is about and what for: two sentences at most. */
  readonly lead: string;
  readonly figure?: DrawingId;
  /** Shows the marks of a judgement with their meaning. */
  readonly marks?: true;
  /** Step by step. */
  readonly how?: readonly string[];
  /** Further parts under headings of their own. */
  readonly parts?: readonly { readonly title: string; readonly points: readonly string[] }[];
  readonly why?: readonly string[];
  /** What it can't tell. */
  readonly cannot?: readonly string[];
  readonly cautions?: readonly string[];
  readonly sources: readonly Source[];
  readonly see: readonly PageId[];
  /** Other words that somebody may look for. */
  readonly words?: string;
}
