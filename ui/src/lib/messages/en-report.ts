/** The printable report of a job, in English. Part of the one catalogue (en.ts). */
export const enReport = {
  'report.title': 'Report',
  'report.lead': 'One page to print or to hand on: the job, its readings with their uncertainty, what the leak does, decisions, repairs, cautions and sources. It opens in any browser and needs nothing else.',
  'report.personal': 'The customer’s name, telephone and plate',
  'report.without': 'Leave them out',
  'report.without_note': 'The report says that they were left out.',
  'report.with': 'Put them in',
  'report.with_note': 'For the customer, or somebody who may know them.',
  'report.make': 'Write the report',
  'report.made': 'The report is ready',
  'report.made_facts': '{size} kB. It shows what is on record now; write it again when something has changed.',
  'report.save': 'Save it on this device',
  'report.saved': 'Saved: {name}',
} as const;
