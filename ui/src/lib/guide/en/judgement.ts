import type { GuidePage } from '../page';

export const judgement = {
  judgement: {
    lead: 'A reading is held against its limit with everything that may be off. So there are three answers, and a fourth where there can be none.',
    figure: 'interval',
    marks: true,
    parts: [
      {
        title: 'How to read the card',
        points: [
          'The mean counts only readings that were turned and seated anew.',
          'The limit is shown twice: as it is given, at sea level, and as it is here today.',
          'The chance says how likely it is that the bore really meets its limit.',
          'Below stands what the leak does to the pressure. That, not the reading, decides what is worth repairing.',
        ],
      },
      {
        title: 'Too close to call',
        points: [
          'The card says what would settle it: repeat, take a better gauge, read a barometer, or measure the diameters.',
          'It is an honest answer. Tossing a coin and writing down the result isn’t.',
        ],
      },
    ],
    cannot: [
      'Within the limit is no leave to run any part beyond what the service information allows.',
      'No bore is passed on a vacuum reading alone: look at movement, spring and orifice too.',
    ],
    sources: [{ work: 'ISO 14253-1 (deciding with uncertainty); JCGM 106:2012 (probability of conformity)' }],
    see: ['uncertainty', 'leak_to_pressure', 'disagreement', 'decision'],
    words: 'within outside too close to call not judged limit verdict mark chance probability',
  },
  uncertainty: {
    lead: '“17.2 ± 0.4” says: what was measured most likely lies between 16.8 and 17.6. It isn’t a mistake, it is what an honest measurement looks like.',
    figure: 'interval',
    parts: [
      {
        title: 'Where it comes from',
        points: [
          'The gauge: how far it may be off and still be sold as good. Its certificate says so.',
          'Its scale: what lies between two lines can only be guessed.',
          'The work: seat the plug anew and the needle stands a little elsewhere.',
          'The air: the limit moves with the barometer, and the barometer isn’t known exactly either.',
        ],
      },
      {
        title: 'What to do about it',
        points: [
          'Repeating helps against scatter: with four times the readings it halves.',
          'Repeating doesn’t help against the gauge. A better one does, or a fresh calibration.',
          'The largest part is named on the card. Working on any other is lost time.',
        ],
      },
      {
        title: 'Why an interval is lopsided',
        points: [
          'How far off-centre the valve lies is unknown in the test and in service. Off-centre it leaks up to two and a half times as much.',
          'So a predicted shift reaches further to one side than to the other, and a bare ± would be wrong.',
        ],
      },
    ],
    sources: [
      { work: 'JCGM 100:2008 (expression of uncertainty), JCGM 101:2008 (Monte Carlo)' },
      { work: 'White, Viscous Fluid Flow (eccentric annulus: factor 1 + 1.5 e²)' },
    ],
    see: ['judgement', 'readings', 'units', 'stand_check'],
    words: 'plus minus error tolerance accuracy interval band scatter standard deviation 95 %',
  },
  leak_to_pressure: {
    lead: 'A reading becomes a leak, the leak an oil flow, and the flow a shift of the regulated pressure. That is the question behind every bore.',
    figure: 'loop',
    how: [
      'Reading to leak: the stand’s pull and the day’s air are taken out. What is left is the gap: diameter, clearance and length.',
      'Gap to oil flow: the same gap, with hot oil instead of air, with body and valve grown by heat, at the length it has where it regulates.',
      'Oil flow to pressure: the leak has to come through the balance orifice. It makes a difference in pressure across it, and the valve settles elsewhere.',
      'That is worked out at hot idle and at the highest line pressure, as measured and as new.',
    ],
    parts: [
      {
        title: 'Which way it goes',
        points: [
          'Out of the reaction chamber to the sump: the valve feels too little, opens further, feed is too high.',
          'Into it from line: the valve feels too much, closes, feed is too low, and the lower the higher line is.',
          'Past the supply land: line pushes into feed. With little demand, feed climbs after line.',
        ],
      },
    ],
    why: [
      'The shift grows with the square of the leak and falls with the fourth power of the orifice’s bore while that is turbulent. So the same reading can be harmless in one circuit and ruinous in another.',
      'Cold, thick oil creeps through both, and the fault hides.',
    ],
    cannot: [
      'Where it isn’t regulating, there is no shift to give. The app says so in words and never writes a zero.',
      'Lands that weren’t tested make the band wide.',
      'How much of a shift reaches a clutch depends on its solenoid.',
    ],
    sources: [
      { work: 'Merritt, Hydraulic Control Systems (spool balance, orifices, annular leakage)' },
      { work: 'ASTM D341 (viscosity with temperature)' },
    ],
    see: ['orifice_bore', 'spring', 'judgement', 'repair', 'gauge_at_taps'],
    words: 'shift psi consequence flow feed reaction chamber regulator orifice physics',
  },
  disagreement: {
    lead: 'Two checks that contradict each other are worth more than either: one of them is about something else than you think.',
    parts: [
      {
        title: 'A leak that the diameters can’t explain',
        points: [
          'The air came another way: plug, plate, hose, a pore, a crack, a face that isn’t flat.',
          'Or the gauge in the bore missed a lobe or a scratch. Look with light.',
        ],
      },
      {
        title: 'Wide diameters, a good reading',
        points: ['Oil or varnish in the gap. Clean, dry, read again.', 'The orifice in the way took the drop. Block it.'],
      },
      {
        title: 'A good reading, a wrong pressure',
        points: [
          'The spring can’t give it: measure load at height.',
          'The valve hangs: try free movement bolted together.',
          'The wrong orifice or plate, or a starved feed screen.',
          'Line itself is wrong. Read both at the same moment.',
        ],
      },
      {
        title: 'Readings that change with the turn of the valve',
        points: ['Valve or bore isn’t round, or the valve is bent. Measure in two directions.'],
      },
    ],
    cannot: ['The app can say that two findings disagree. Which of them is wrong is found at the bench.'],
    sources: ['practice'],
    see: ['porosity', 'diameters', 'spring', 'free_movement', 'end_plug'],
    words: 'contradict contradiction disagree explain unexplained why',
  },
  decision: {
    lead: 'Put on record, a decision is kept with everything it rests on: readings, limit, profile, and the version of the physics.',
    parts: [
      {
        title: 'What that means',
        points: [
          'A limit or profile that is changed later never rewrites a decision. The card says that something changed since, and the decision can be recorded anew.',
          'Your own words go along. Say what the numbers can’t: what you saw, what was agreed.',
          'It carries your name.',
        ],
      },
    ],
    cannot: ['It decides nothing about safety. The service information, local rules and trained people do.'],
    sources: ['practice'],
    see: ['judgement', 'journal', 'repair'],
    words: 'record put decide sign note outdated',
  },
} as const satisfies Record<string, GuidePage>;
