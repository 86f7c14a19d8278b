import type { LeakPath, Opening, Section } from '../components/drawing/section';

const MM = 1e-3;
const span = (start: number, end: number) => ({ start_m: start * MM, end_m: end * MM });

/** An invented regulator: 8 mm spool of three lands, spring on the left, vented balance end. */
export const SECTION: Section = {
  bore: [{ ...span(0, 62), diameter_m: 8.02 * MM }],
  ports: [
    { id: 'exhaust', ...span(15.2, 19.4), side: 'top', label: 'exhaust' },
    { id: 'line', ...span(29, 33.2), side: 'top', label: 'line' },
    { id: 'vent', ...span(40, 42.6), side: 'top', label: 'vent' },
    { id: 'drain', ...span(3, 5.6), side: 'top', label: 'drain' },
    { id: 'feed', ...span(21.8, 26.6), side: 'bottom', label: 'feed' },
    { id: 'reaction', ...span(53, 55.4), side: 'bottom', label: 'reaction' },
  ],
  lands: [
    { ...span(13, 19.7), diameter_m: 7.97 * MM },
    { ...span(28.6, 37), diameter_m: 7.97 * MM },
    { ...span(44, 51), diameter_m: 7.97 * MM },
  ],
  stems: [
    { ...span(19.7, 28.6), diameter_m: 3.6 * MM },
    { ...span(37, 44), diameter_m: 3.6 * MM },
  ],
  springs: [
    {
      seat_m: 0,
      rest_m: 13 * MM,
      outer_diameter_m: 6.6 * MM,
      wire_diameter_m: 0.9 * MM,
      coils: 5.5,
    },
  ],
  chambers: [
    { ...span(51.2, 62), label: 'reaction' },
    { ...span(0, 13), label: 'spring' },
  ],
  passages: [
    { from: 'feed', to: 'reaction', orifice: { diameter_m: 1.02 * MM, label: 'Ø 0.040 in' } },
  ],
  left_end: 'closed',
  right_end: 'plug',
};

export const LEAKS: readonly LeakPath[] = [
  {
    from_m: 51 * MM,
    to_m: 44 * MM,
    label: 'Reaction chamber to vent, 21 mL/min at 90 °C',
  },
];

export const OPENINGS: readonly Opening[] = [{ port: 'line', flow: 'in' }];

/** A stepped spool, crowded with ports, to see whether names keep apart. */
export const CROWDED: Section = {
  bore: [
    { ...span(0, 40), diameter_m: 12.02 * MM },
    { ...span(40, 70), diameter_m: 9.02 * MM },
  ],
  ports: [
    { id: 'a', ...span(14, 16.5), side: 'top', label: 'exhaust' },
    { id: 'b', ...span(21, 23.5), side: 'top', label: 'line pressure' },
    { id: 'c', ...span(27, 29), side: 'top', label: 'lube' },
    { id: 'd', ...span(33, 36), side: 'top', label: 'converter feed' },
    { id: 'e', ...span(44, 46), side: 'top', label: 'vent' },
    { id: 'f', ...span(18, 21), side: 'bottom', label: 'solenoid feed' },
    { id: 'g', ...span(30, 32), side: 'bottom', label: 'boost' },
    { id: 'h', ...span(62, 65), side: 'bottom', label: 'reaction' },
  ],
  lands: [
    { ...span(12, 18.5), diameter_m: 11.97 * MM },
    { ...span(24, 33.5), diameter_m: 11.97 * MM },
    { ...span(47, 59), diameter_m: 8.97 * MM },
  ],
  stems: [
    { ...span(18.5, 24), diameter_m: 5 * MM },
    { ...span(33.5, 47), diameter_m: 5 * MM },
  ],
  springs: [
    {
      seat_m: 0,
      rest_m: 12 * MM,
      outer_diameter_m: 9 * MM,
      wire_diameter_m: 1.4 * MM,
      coils: 4,
    },
  ],
  chambers: [{ ...span(59, 70), label: 'reaction' }],
  passages: [
    { from: 'f', to: 'h', orifice: { diameter_m: 1.78 * MM, label: 'Ø 0.070 in' } },
    { from: 'g', to: 'h' },
  ],
  left_end: 'plug',
  right_end: 'closed',
};

export const CROWDED_LEAKS: readonly LeakPath[] = [
  { from_m: 24 * MM, to_m: 27 * MM, label: 'Line to lube' },
  { from_m: 59 * MM, to_m: 47 * MM, label: 'Reaction chamber to vent' },
];
