/** What a repair option needs and does, as rows of words and figures. */
import type {
  Consequence,
  ConsequenceAnswer,
  OrificeStands,
  RepairOutlook,
  Span,
} from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { Quantity } from '$lib/quantity';
import { show, showInterval, showNumber } from '$lib/quantity/show';
import { EFFORTS, MOTIONS, READING_REFUSALS } from './words';

export interface Row {
  readonly label: string;
  readonly value?: string | undefined;
  readonly note?: string | undefined;
}

export const computed = (answer: ConsequenceAnswer): Consequence | undefined =>
  answer.answer === 'computed' ? answer : undefined;

const interval = ({ low, high }: Span, quantity: Quantity) =>
  t('unit.interval', showInterval(low, high, quantity));

function feed(answer: ConsequenceAnswer, label: string): Row {
  const known = computed(answer);
  if (!known) return { label, value: t('options.chart_unknown') };
  const { highest_line: highest, idle } = known;
  const span = highest.measured_feed_pa;
  return {
    label,
    value: show(span.likely, 'pressure'),
    note: t('options.row.feed_note', {
      ...showInterval(span.low, span.high, 'pressure'),
      idle: show(idle.measured_feed_pa.likely, 'pressure'),
    }),
  };
}

/** Clearance, reading, pressure, motion, work. */
export function doesRows(option: RepairOutlook): Row[] {
  const rows: Row[] = [feed(option.hot, t('options.row.hot')), feed(option.cold, t('options.row.cold'))];
  const { clearance_cold_m: cold, clearance_hot_m: hot, reading, motion } = option;
  if (cold && hot) {
    rows.push({
      label: t('options.row.clearance'),
      value: show(cold.likely, 'clearance'),
      note: t('options.row.clearance_note', {
        cold: interval(cold, 'clearance'),
        hot: interval(hot, 'clearance'),
      }),
    });
  }
  if (reading.answer === 'foreseen') {
    const { vacuum_pa: vacuum, limit_pa: limit } = reading;
    const ends = showInterval(vacuum.low, vacuum.high, 'vacuum');
    rows.push({
      label: t('options.row.reading'),
      value: show(vacuum.likely, 'vacuum'),
      note:
        typeof limit === 'number'
          ? t('options.row.reading_limit', { ...ends, limit: show(limit, 'vacuum') })
          : t('options.row.reading_note', ends),
    });
  } else {
    rows.push({ label: t('options.row.reading'), note: t(READING_REFUSALS[reading.reason]) });
  }
  if (motion.answer === 'known') {
    rows.push({
      label: t('options.row.motion'),
      value: t(MOTIONS[motion.stands]),
      note: t('options.motion_note', { damping: showNumber(motion.least_damping_ratio, 2) }),
    });
  }
  rows.push({ label: t('options.row.effort'), value: t(EFFORTS[option.effort]) });
  return rows;
}

/** Parts and dimensions. */
export function needsRows({ needs }: RepairOutlook): Row[] {
  const rows: Row[] = needs.parts.map(({ name, source }) => ({
    label: name,
    note: source ? t('options.row.source', { source }) : undefined,
  }));
  if (needs.other_sets > 0) {
    rows.push({ label: t('options.row.other_sets', { count: needs.other_sets }) });
  }
  const size = (label: string, value: number | null | undefined, quantity: Quantity) => {
    if (typeof value === 'number') rows.push({ label, value: show(value, quantity) });
  };
  size(t('options.row.valve'), needs.valve_diameter_m, 'length');
  size(t('options.row.sleeve_outer'), needs.sleeve_outer_m, 'length');
  size(t('options.row.bore'), needs.bore_diameter_m, 'length');
  size(t('options.row.cleans_up'), needs.cleans_up_above_m, 'length');
  if (typeof needs.stock_m === 'number' && needs.stock_m > 0) {
    size(t('options.row.stock'), needs.stock_m, 'length');
  }
  size(t('options.row.wall'), needs.wall_left_m, 'length');
  if (needs.seat_gap_m) {
    const { likely } = needs.seat_gap_m;
    rows.push({
      label: t('options.row.seat'),
      value: likely > 0 ? show(likely, 'clearance') : t('options.row.seat_press'),
    });
  }
  if (typeof needs.layer_left_m === 'number') {
    const left = needs.layer_left_m;
    rows.push({
      label: t('options.row.layer'),
      value: left > 0 ? show(left, 'clearance') : t('options.row.layer_none'),
    });
  }
  size(t('options.row.area'), needs.reaction_area_m2, 'area');
  if (typeof needs.spring_load_n === 'number') {
    const rate = needs.spring_rate_n_per_m;
    rows.push({
      label: t('options.row.spring'),
      value: show(needs.spring_load_n, 'force'),
      note: needs.spring_kept
        ? t('options.row.spring_kept')
        : typeof rate === 'number'
          ? t('options.row.spring_note', { rate: show(rate, 'spring_rate') })
          : undefined,
    });
  }
  size(t('options.row.shim'), needs.shim_m, 'length');
  if (needs.orifice) {
    const { kept, changed, restores } = needs.orifice;
    const row = (label: string, stands: OrificeStands): Row => ({
      label,
      value: t('options.row.orifice', { diameter: show(stands.diameter_m, 'length') }),
      note: [
        stands.shift_pa
          ? t('options.row.orifice_shift', showInterval(stands.shift_pa.low, stands.shift_pa.high, 'pressure'))
          : t('options.row.orifice_shift_unknown'),
        ...(stands.motion.answer === 'known'
          ? [
              t(MOTIONS[stands.motion.stands]),
              t('options.motion_note', { damping: showNumber(stands.motion.least_damping_ratio, 2) }),
            ]
          : []),
      ].join('; '),
    });
    rows.push(
      row(t('options.row.orifice_kept'), kept),
      row(t(restores ? 'options.row.orifice_restored' : 'options.row.orifice_larger'), changed),
    );
  }
  if (needs.relief) {
    const { relief } = needs;
    rows.push({
      label: t('options.row.relief'),
      value:
        typeof relief.cracking_pa === 'number'
          ? t('options.row.cracking', { cracking: show(relief.cracking_pa, 'pressure') })
          : undefined,
      note: t('options.row.relief_note', {
        ball: show(relief.ball_diameter_m, 'length'),
        seat: show(relief.seat_diameter_m, 'length'),
        load: show(relief.load_seated_n, 'force'),
        rate: show(relief.rate_n_per_m, 'spring_rate'),
      }),
    });
  }
  return rows;
}
