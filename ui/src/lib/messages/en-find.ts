/** Finding jobs again, in English. Part of the one catalogue (en.ts). */
export const enFind = {
  'find.words': 'Find a job',
  'find.narrow': '{count, plural, =0 {Narrow it down} one {Narrowed by # choice} other {Narrowed by # choices}}',
  'find.any': 'any',
  'find.state': 'Where it stands',
  'find.unit': 'Unit',
  'find.bore': 'Bore',
  'find.person': 'Opened by',
  'find.from': 'Opened on or after',
  'find.to': 'Opened on or before',
  'find.clear': 'Show all jobs',
  'find.found': '{count, plural, =0 {No job fits. Every word must be found: in number, vehicle, complaint, notes, customer, unit, or the words of tests and repairs.} one {# job} other {# jobs}}',
  'find.more': '{count, plural, one {Show # more} other {Show # more}}',

  'jobs.state.not_tested': 'No test yet',
  'jobs.state.not_decided': 'Tested, not decided',
  'jobs.state.repaired_not_tested': 'Repaired, not tested since',
  'jobs.repaired_within': 'Repaired, within limit since',
} as const;
