/** Every answer of the core about an inspection, in words. Total: a new one breaks the build. */
import type {
  Accord,
  CheckName,
  Conclusion,
  GapSource,
  Occasion,
  Outcome,
  Settle,
  SolenoidKind,
  TapBeside,
} from '$lib/generated/commands';
import type { PageId } from '$lib/guide/page';
import { CHECK_PAGES } from '$lib/guide/subjects';
import { t, type PlainKey } from '$lib/messages';
import { show, showInterval, showWithUncertainty } from '$lib/quantity/show';
import type { Judgement } from '../../components/shared/judgement';

export const CHECK_NAMES = {
  valve_train: 'check_name.valve_train',
  free_movement: 'check_name.free_movement',
  wear_marks: 'check_name.wear_marks',
  light: 'check_name.light',
  wiggle: 'check_name.wiggle',
  vacuum: 'check_name.vacuum',
  diameters: 'check_name.diameters',
  spring: 'check_name.spring',
  orifice_bore: 'check_name.orifice_bore',
  end_plug: 'check_name.end_plug',
  flatness: 'check_name.flatness',
  plate_and_balls: 'check_name.plate_and_balls',
  cross_passages: 'check_name.cross_passages',
  feed_screens: 'check_name.feed_screens',
  solenoid: 'check_name.solenoid',
  clutch_air: 'check_name.clutch_air',
} as const satisfies Record<CheckName, PlainKey>;

/** The page of the guide behind each check. */
export const HOW = {
  valve_train: CHECK_PAGES.valve_train,
  free_movement: CHECK_PAGES.free_movement,
  wear_marks: CHECK_PAGES.wear_marks,
  light: CHECK_PAGES.light_check,
  wiggle: CHECK_PAGES.wiggle_check,
  vacuum: CHECK_PAGES.vacuum_test,
  diameters: CHECK_PAGES.diameters,
  spring: CHECK_PAGES.spring,
  orifice_bore: CHECK_PAGES.orifice_bore,
  end_plug: CHECK_PAGES.end_plug,
  flatness: CHECK_PAGES.flatness,
  plate_and_balls: CHECK_PAGES.plate_and_balls,
  cross_passages: CHECK_PAGES.porosity,
  feed_screens: CHECK_PAGES.feed_screens,
  solenoid: CHECK_PAGES.solenoid_resistance,
  clutch_air: CHECK_PAGES.clutch_air,
} as const satisfies Record<CheckName, PageId>;

export const OUTCOMES = {
  good: { words: 'check.outcome_good', mark: 'within' },
  measured: { words: 'check.outcome_measured', mark: 'not_judged' },
  doubtful: { words: 'check.outcome_doubtful', mark: 'close' },
  bad: { words: 'check.outcome_bad', mark: 'outside' },
} as const satisfies Record<Outcome, { words: PlainKey; mark: Judgement }>;

export const CONCLUSIONS = {
  unfinished: { words: 'card.unfinished', note: 'card.unfinished_note', mark: 'not_judged' },
  sound: { words: 'card.sound', note: 'card.sound_note', mark: 'within' },
  unsettled: { words: 'card.unsettled', note: 'card.unsettled_note', mark: 'close' },
  faulty: { words: 'card.faulty', note: 'card.faulty_note', mark: 'outside' },
} as const satisfies Record<Conclusion, { words: PlainKey; note: PlainKey; mark: Judgement }>;

export const OCCASIONS = {
  as_found: 'check.as_found',
  after_cleaning: 'check.after_cleaning',
  after_repair: 'check.after_repair',
} as const satisfies Record<Occasion, PlainKey>;

export const SETTLES = {
  repeat: 'settle.repeat',
  better_gauge: 'settle.better_gauge',
  finer_scale: 'settle.finer_scale',
  read_barometer: 'settle.read_barometer',
  measure_diameters: 'settle.measure_diameters',
  measure_friction: 'settle.measure_friction',
  clean_and_test_again: 'settle.clean_and_test_again',
  find_other_leak: 'settle.find_other_leak',
  test_other_seals: 'settle.test_other_seals',
  clean_and_move_again: 'settle.clean_and_move_again',
  measure_spring: 'settle.measure_spring',
  measure_orifice: 'settle.measure_orifice',
  measure_pressure: 'settle.measure_pressure',
} as const satisfies Record<Settle, PlainKey>;

/** The check in which something is settled; none: it has no form of its own. */
export const SETTLED_IN: Partial<Record<Settle, CheckName>> = {
  repeat: 'vacuum',
  better_gauge: 'vacuum',
  finer_scale: 'vacuum',
  read_barometer: 'vacuum',
  clean_and_test_again: 'vacuum',
  test_other_seals: 'vacuum',
  measure_diameters: 'diameters',
  measure_friction: 'free_movement',
  clean_and_move_again: 'free_movement',
  measure_spring: 'spring',
  measure_orifice: 'orifice_bore',
};

export const SOLENOID_PASSES = {
  bleed: 'clutch.kind.bleed',
  pulse_width: 'clutch.kind.pulse_width',
  closed_loop: 'clutch.kind.closed_loop',
} as const satisfies Record<SolenoidKind, PlainKey>;

export const PRESSURE_BY = {
  vacuum: 'card.pressure_by.vacuum',
  diameters: 'card.pressure_by.diameters',
} as const satisfies Record<GapSource, PlainKey>;

type Length = readonly [number, number];
const range = ([low, high]: Length, quantity: 'clearance' | 'pressure' | 'length') =>
  t('unit.interval', { ...showInterval(low, high, quantity) });
const spanned = (span: { low: number; high: number }, quantity: 'clearance' | 'pressure' | 'length') =>
  range([span.low, span.high], quantity);

const LEAK = {
  leak_fits_diameters: { mark: 'within', words: 'accord.leak_fits_diameters' },
  leak_beyond_diameters: { mark: 'close', words: 'accord.leak_beyond_diameters' },
  tighter_than_diameters: { mark: 'close', words: 'accord.tighter_than_diameters' },
} as const;
const SPRING = {
  spring_holds: { mark: 'within', words: 'accord.spring_holds' },
  spring_cannot_hold: { mark: 'outside', words: 'accord.spring_cannot_hold' },
  spring_may_not_hold: { mark: 'close', words: 'accord.spring_may_not_hold' },
} as const;

/** A reading at a tap beside what the leak predicts there. */
function atTap(tap: TapBeside): { tap: string; read: string; line: string; predicted: string } {
  return {
    tap: tap.name,
    read: showWithUncertainty(tap.read_pa, tap.expanded_uncertainty_pa, 'pressure'),
    line: show(tap.line_pa, 'pressure'),
    predicted: spanned(tap.predicted_pa, 'pressure'),
  };
}

function swings(accord: Extract<Accord, { says: 'friction_swings' }>): { mark: Judgement; text: string } {
  const swing = show(accord.swing_pa, 'pressure');
  if (!accord.beyond_band) return { mark: 'within', text: t('accord.friction_swings', { swing }) };
  return accord.cleaned
    ? { mark: 'outside', text: t('accord.friction_swings_beyond', { swing }) }
    : { mark: 'close', text: t('accord.friction_swings_dirty', { swing }) };
}

/** What two checks say together, with how it weighs. */
export function accordWords(accord: Accord): { mark: Judgement; text: string } {
  switch (accord.says) {
    case 'leak_fits_diameters':
    case 'leak_beyond_diameters':
    case 'tighter_than_diameters':
      return {
        mark: LEAK[accord.says].mark,
        text: t(LEAK[accord.says].words, {
          vacuum: range(accord.by_vacuum_m as unknown as Length, 'clearance'),
          diameters: spanned(accord.by_diameters_m, 'clearance'),
        }),
      };
    case 'spring_holds':
    case 'spring_may_not_hold':
    case 'spring_cannot_hold':
      return {
        mark: SPRING[accord.says].mark,
        text: t(SPRING[accord.says].words, { pressure: spanned(accord.holds_pa, 'pressure') }),
      };
    case 'moves_badly':
      return { mark: 'close', text: t('accord.moves_badly') };
    case 'friction_swings':
      return swings(accord);
    case 'orifice_as_profile':
      return { mark: 'within', text: t('accord.orifice_as_profile') };
    case 'orifice_off':
      return {
        mark: 'close',
        text: t('accord.orifice_off', {
          measured: spanned(accord.measured_m, 'length'),
          profile: show(accord.profile_m, 'length'),
        }),
      };
    case 'seen_but_tight':
      return { mark: 'close', text: t('accord.seen_but_tight') };
    case 'seen_untested':
      return { mark: 'close', text: t('accord.seen_untested', { lands: accord.lands.join(', ') }) };
    case 'plug_in_the_reading':
      return { mark: 'close', text: t('accord.plug_in_the_reading') };
    case 'tap_fits_leak':
      return { mark: 'within', text: t('accord.tap_fits_leak', atTap(accord.tap)) };
    case 'tap_contradicts_leak':
      return { mark: 'close', text: t('accord.tap_contradicts_leak', atTap(accord.tap)) };
    case 'tap_too_close':
      return { mark: 'not_judged', text: t('accord.tap_too_close', atTap(accord.tap)) };
  }
}
