import type { GuidePage } from '../page';

export const measuring = {
  diameters: {
    lead: 'Bore and valve, each at several stations and in two directions. The difference is the clearance, and the pattern says what wore.',
    figure: 'stations',
    how: [
      'Bring parts and instruments to the same temperature. Hands and lamps warm them; let them lie.',
      'Set the instrument on its standard before and after. If it moved, measure again.',
      'Valve: each land at its middle, and where it is marked, in two directions at right angles.',
      'Bore: at the stations where a land works and at one where none does, in the same two directions.',
      'Enter each figure with its instrument. Don’t average in your head: the app does, and keeps them apart.',
    ],
    parts: [
      {
        title: 'Reading the pattern',
        points: [
          'Larger at one end than at the other: tapered.',
          'Larger in one direction than across it: out of round.',
          'Larger only where a land works: worn, and by how much, since the unworn station stands beside it.',
        ],
      },
    ],
    why: [
      'A vacuum reading says how much leaks, not what wore. Diameters say whether another valve is enough or the bore needs work.',
      'They also settle a reading that is too close to call.',
    ],
    cannot: [
      'A two-point gauge misses a three-lobed shape: the same everywhere, and yet not round.',
      'The clearance carries the uncertainty of both instruments. With coarse ones it can be as wide as the wear itself.',
    ],
    cautions: ['Clean the bore before a gauge goes in, and never force it: it scratches what it measures.'],
    sources: [
      'practice',
      { work: 'ISO 286 (tolerances and fits), ISO 1 (20 °C as the reference temperature)' },
      { work: 'JCGM 100:2008 (combining the uncertainty of two instruments)' },
    ],
    see: ['wiggle_check', 'uncertainty', 'repair', 'disagreement'],
    words: 'micrometer bore gauge taper out of round station direction clearance thou micron',
  },
  spring: {
    lead: 'The spring sets the pressure: its load where the valve regulates, over the area that the oil pushes on. It is measured at two heights and free.',
    figure: 'spring',
    how: [
      'Look at it: bent, rubbed, coils touching, ends ground square. Roll it on a plate.',
      'Measure the free length without pressing it.',
      'Press it to the height it has where the valve regulates, and read the load. Then to a second height inside its travel.',
      'Enter both pairs. The app finds the rate, and the pressure that this load holds.',
      'Compare with the service information’s own heights and loads, never with another spring from the shelf.',
    ],
    why: [
      'Pressure is load over area. A spring a twentieth too weak holds a pressure a twentieth too low, whatever the bore is like.',
      'A smaller valve in a sleeve needs a smaller load. The same spring in it would hold too high a pressure.',
    ],
    cannot: [
      'Free length alone can’t tell: a spring can be long and weak, or short and strong.',
      'Fatigue that hasn’t shown yet doesn’t show on the bench.',
    ],
    cautions: ['Guard the spring while it is pressed: it flies sideways when it buckles. Eye protection.'],
    sources: ['practice', { work: 'EN 13906-1; Shigley’s Mechanical Engineering Design (rate of a helical spring)' }],
    see: ['repair', 'leak_to_pressure', 'disagreement', 'valve_train'],
    words: 'load height rate free length tester force weak shim',
  },
  orifice_bore: {
    lead: 'The balance orifice decides how strongly a leak moves the pressure. Its bore is found with pin gauges: the largest that goes, the smallest that doesn’t.',
    figure: 'pins',
    how: [
      'Clean the orifice with fluid and low air. No wire and no drill: they enlarge it.',
      'Try pins from small to large, straight and without force.',
      'The largest that goes in and the smallest that doesn’t: the bore lies between them.',
      'Look at both edges with a lens: sharp, rounded, chipped, or with a burr.',
      'Check against the plate’s own drawing, and that the plate belongs to this unit.',
    ],
    why: [
      'What passes a turbulent orifice goes with the square of its bore, so the shift that a leak makes goes with the fourth power of it. A hole a tenth too wide makes the regulator less sensitive by a third.',
      'The same leak is harmless with a large orifice and ruinous with a small one.',
    ],
    cannot: [
      'Two pins can’t see an oval. Try across as well.',
      'Flow depends on edges and length too, above all in cold oil.',
    ],
    cautions: ['Never enlarge an orifice as a trial: a larger one can make a regulator hunt.'],
    sources: ['practice', { work: 'Merritt, Hydraulic Control Systems (turbulent orifice flow)' }],
    see: ['leak_to_pressure', 'plate_and_balls', 'setup'],
    words: 'pin gauge hole plate drill bore size restrictor',
  },
} as const satisfies Record<string, GuidePage>;
