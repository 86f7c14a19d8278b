import type { GuidePage } from '../page';

export const road = {
  gauge_at_taps: {
    lead: 'A gauge at a pressure tap shows what a circuit really does, hot, in each gear and under load. It decides whether the valve body has to come out at all.',
    figure: 'gauge',
    how: [
      'Find in the service information which tap belongs to which circuit, its window in each gear, and the highest pressure to expect.',
      'Take a gauge, hose and fittings rated above that pressure. Look them over. Engine off, pressure gone, then fit them.',
      'Lead the hose clear of exhaust, shafts and wheels, so that it can be read from the seat or by a second person.',
      'Bring the oil to its running temperature and write that temperature down with each reading.',
      'Read at idle, then as the service information says: by gear, by load, by commanded pressure. Write down gear, load and line pressure beside each.',
      'Read feed and line at the same moment where both have taps. Feed that climbs with line says more than either alone.',
      'Engine off and pressure gone before anything comes off again. Close the tap as the service information says.',
    ],
    why: [
      'All pressure-control solenoids drink from one regulated circuit, and the control module takes its pressure for granted. When it drifts, many clutches are off at once and the codes point elsewhere.',
      'Cold oil hides a leak: it creeps through the balance orifice so slowly that the regulator hardly notices. The fault shows hot.',
    ],
    cannot: [
      'A tap shows its own place in the circuit. What lies behind a long passage or an orifice can differ.',
      'A needle is slow: short drops and ripple don’t show.',
      'A good pressure at one load says nothing about another. Where feed has no tap, it can’t be read on the road.',
    ],
    cautions: [
      'Hot oil under pressure burns skin and eyes. Eye protection, gloves, sleeves.',
      'A second person reads while one drives. Nobody under or beside a running vehicle with driven wheels on the ground.',
      'Raised wheels turn: stands, chocks, distance. Never go beyond the load, time or temperature that the service information sets for a test.',
    ],
    sources: ['practice', { work: 'Merritt, Hydraulic Control Systems (orifices turn laminar in cold, thick oil)' }],
    see: ['leak_to_pressure', 'clutch_air', 'cautions', 'uncertainty'],
    words: 'road test drive pressure tap port hose line feed temperature gear',
  },
} as const satisfies Record<string, GuidePage>;
