import type { LineDirection, OilCheckFigures, OilPoint } from '$lib/generated/commands';
import type { Entry } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** One point as typed. */
export interface PointForm {
  line: Entry;
  feed: Entry;
  direction: LineDirection;
}

/** What the form holds, as typed. */
export interface OilForm {
  temperature: Entry;
  oil: 'unit' | 'other';
  fluid: string;
  feedGauge: string;
  lineGauge: string;
  thermometer: string;
  points: PointForm[];
  note: string;
}

export function emptyPoint(direction: LineDirection): PointForm {
  return { line: entryOf(null, 'pressure'), feed: entryOf(null, 'pressure'), direction };
}

export function oilForm(figures: OilCheckFigures): OilForm {
  const points = (figures.points ?? []).map((point) => ({
    line: entryOf(point.line_pa, 'pressure'),
    feed: entryOf(point.feed_pa, 'pressure'),
    direction: point.direction,
  }));
  return {
    temperature: entryOf(figures.oil_temperature_k, 'temperature'),
    oil: figures.other_oil ? 'other' : 'unit',
    fluid: figures.fluid ?? '',
    feedGauge: figures.feed_gauge ?? '',
    lineGauge: figures.line_gauge ?? '',
    thermometer: figures.thermometer ?? '',
    points: points.length > 0 ? points : [emptyPoint('rising')],
    note: figures.note ?? '',
  };
}

/** The figures as the core takes them: points of which either pressure is missing are left out. */
export interface OilEntered {
  readonly figures: OilCheckFigures;
  readonly unreadable: boolean;
  /** Where each point of the form went; −1: left out. */
  readonly places: readonly number[];
  /** A point with one of its pressures. */
  readonly half: boolean;
}

export function figuresOf(form: OilForm): OilEntered {
  let unreadable = false;
  let half = false;
  const value = (entry: Entry, quantity: 'pressure' | 'temperature') => {
    const read = valueOf(entry, quantity);
    if (read === 'unreadable') unreadable = true;
    return read === 'unreadable' ? null : read;
  };
  const points: OilPoint[] = [];
  const places = form.points.map(({ line, feed, direction }) => {
    const [line_pa, feed_pa] = [value(line, 'pressure'), value(feed, 'pressure')];
    if (line_pa === null || feed_pa === null) {
      if (line_pa !== null || feed_pa !== null) half = true;
      return -1;
    }
    return points.push({ line_pa, feed_pa, direction }) - 1;
  });
  return {
    unreadable,
    half,
    places,
    figures: {
      oil_temperature_k: value(form.temperature, 'temperature'),
      other_oil: form.oil === 'other',
      fluid: form.oil === 'other' ? form.fluid.trim() : '',
      feed_gauge: form.feedGauge || null,
      line_gauge: form.lineGauge || null,
      thermometer: form.thermometer || null,
      points,
      note: form.note.trim(),
    },
  };
}

/** Which way line likely goes next: down again once the highest was reached or passed. */
export function nextDirection(form: OilForm, highest: number | null | undefined): LineDirection {
  const last = form.points.at(-1);
  if (!last) return 'rising';
  const line = valueOf(last.line, 'pressure');
  const reached = typeof highest === 'number' && typeof line === 'number' && line >= 0.97 * highest;
  return reached ? 'falling' : last.direction;
}
