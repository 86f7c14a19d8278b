import type { GuidePage } from '../page';

export const repair = {
  repair: {
    lead: 'Choose the repair that the numbers justify, write down what it left behind, and let the prediction say what it should do before it goes back.',
    parts: [
      {
        title: 'Choosing',
        points: [
          'Cleaned: when the valve hung or varnish was in the way, and the bore is sound.',
          'New valve: when the valve wore and the bore didn’t. Diameters tell.',
          'Sleeve with a smaller valve: when the bore wore. Its spring has to fit the smaller area.',
          'Reamed, oversize valve: when the bore wore and there is wall enough. Its spring has to fit the larger area.',
          'Relief added: contains a pressure that would run away. It doesn’t cure the leak.',
          'Body replaced: when the wall, the face or the number of bad bores leaves no choice. The other body is measured as well.',
        ],
      },
    ],
    how: [
      'Say what was done, and name the parts in words.',
      'Measure afterwards: bore or sleeve, valve, spring at its height.',
      'Enter what you measured. What stays empty is said at its field, with what that costs.',
      'Read the prediction. If it reaches outside the specified band, think again before it is built in.',
      'Test the bore again. A repair is proved by a test, not by its dimensions.',
    ],
    why: [
      'Pressure is spring load over area. Whoever changes the diameter and keeps the spring changes the pressure.',
    ],
    cannot: ['Dimensions don’t see a chip in a passage, a sleeve that shifts, or a plug that leaks.'],
    cautions: [
      'Reaming throws chips: eye protection, no gloves at turning tools, chips washed out of every passage.',
      'Limits and wall thickness come from the service information and the maker of the parts.',
    ],
    sources: ['practice', { work: 'Merritt, Hydraulic Control Systems (spool balance)' }],
    see: ['diameters', 'spring', 'relief', 'proof'],
    words: 'fix sleeve ream oversize kit new valve clean replace',
  },
  relief: {
    lead: 'A ball on a seat that opens when the circuit goes too high. It contains; it doesn’t cure: the leak and the pump flow over it remain.',
    figure: 'relief',
    how: [
      'Measure ball and seat: the seat’s sharp edge counts, not the ball.',
      'Measure the spring: load with the ball seated, and rate. See how far the ball can lift.',
      'Enter what the parts stand, and who says so. The app brings no limit of its own.',
      'Enter the clearance of the supply land if it was measured. Else the last judged test of this bore counts.',
      'Read whether it opens inside its window, and whether it holds the worst cross leak.',
    ],
    why: [
      'Its window lies above normal regulation with its spread, and below what the parts stand. Too low it passes oil all the time; too high it protects nothing.',
      'Opening in time isn’t enough: it must pass as much as the worst leak brings.',
    ],
    cannot: ['How it wears, sticks or chatters. A relief that works all the time is a fault to be found.'],
    cautions: ['Never set a relief above what the service information allows for the circuit.', 'The spring is under load: eye protection.'],
    sources: ['practice', { work: 'Merritt, Hydraulic Control Systems (poppet valves: seat, spring, friction)' }],
    see: ['repair', 'spring', 'leak_to_pressure', 'proof'],
    words: 'ball seat cracking pressure window capacity overpressure limit valve',
  },
  proof: {
    lead: 'Before, predicted, after: three stages on one plot. A repair is done when the test since says so, and the road agrees.',
    how: [
      'Test the bore again, on the same test point, with the stand checked that day.',
      'Compare: the pressure since should lie inside what was predicted, and inside the specified band.',
      'Outside the prediction? Look for what the dimensions don’t tell: plug, chips, orifice, plate.',
      'Put the decision on record.',
      'Then the gauge at the taps, hot, in the same gears and loads as before.',
    ],
    why: ['A prediction that was met is the best proof that the cause was understood. One that wasn’t met is the cheapest warning there is.'],
    cannot: ['The bench knows no heat soak, no ripple and no aerated oil. The road test decides.'],
    cautions: ['Road tests with a second person. Hot oil under pressure at the gauge.'],
    sources: ['practice'],
    see: ['gauge_at_taps', 'disagreement', 'vacuum_test', 'decision'],
    words: 'before after predicted test again verify compare',
  },
} as const satisfies Record<string, GuidePage>;
