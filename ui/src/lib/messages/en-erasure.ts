/** Erasing what is held about a customer, in English. Part of the one catalogue (en.ts). */
export const enErasure = {
  'erase.title': 'Erase this customer’s data',
  'erase.short': 'Erase this customer’s data',
  'erase.lead':
    'When a customer asks for it, what the shop holds about them is taken out for good, on this device and on every other that gets this shop’s files later.',
  'erase.before': 'Before that',
  'erase.report_first':
    'The customer may want a report of the work. Write it first and hand it over: afterwards it has no name in it.',
  'erase.report': 'Write the job’s report',
  'erase.held': 'What is held',
  'erase.which': 'Say which of these jobs are this customer’s. Only those are touched.',
  'erase.nothing': 'Nothing is held about a customer of this job.',
  'erase.this_job': 'This job',
  'erase.job_line': 'Job {number}, {vehicle}',
  'erase.opened': 'Opened {day}',
  'erase.same.name': 'same name',
  'erase.same.phone': 'same telephone',
  'erase.same.plate': 'same plate',
  'erase.same': 'Listed because of: {why}',
  'erase.is_theirs': 'Job {number} is this customer’s',
  'erase.authorisations': 'What the customer agreed to, in all that was ever written down; it goes too',
  'erase.customers': 'Customer, in all that was ever written down',
  'erase.complaint': 'Erase the complaint too',
  'erase.notes': 'Erase the notes too',
  'erase.earlier_only': 'Only earlier wordings are held.',
  'erase.names': 'It names the customer.',
  'erase.elsewhere':
    'These words of tests and repairs name the customer. They stay, since they are part of what was measured and done:',
  'erase.goes': 'What goes',
  'erase.goes_customer':
    '{count, plural, one {# entry of name, telephone and plate} other {# entries of name, telephone and plate, replaced ones too}}',
  'erase.goes_complaint': '{count, plural, one {# wording of a complaint} other {# wordings of complaints}}',
  'erase.goes_notes': '{count, plural, one {# wording of notes} other {# wordings of notes}}',
  'erase.goes_drafts': 'What is half typed and says the same',
  'erase.stays': 'What stays',
  'erase.stays_what':
    'Readings, decisions, repairs, photos of the work alone, cautions and the vehicle’s description and distance, with who recorded them and when. That something was erased, by whom and when, stays on record; what it said doesn’t.',
  'erase.not_reached': 'What it can’t reach',
  'erase.not_reached_files':
    'Files that were passed on, reports that were handed out, and devices that never get a file of this shop again. Ask whoever has them.',
  'erase.goes_elsewhere':
    'What somebody wrote about this customer on another device and didn’t know of this goes too, as soon as it meets it.',
  'erase.older_now':
    '{count, plural, =0 {There is no backup from before on this device.} one {# backup on this device may still hold it. You can delete it when this is done.} other {# backups on this device may still hold it. You can delete them when this is done.}}',
  'erase.confirm': 'Type ERASE to confirm. It can’t be undone.',
  'erase.word': 'ERASE',
  'erase.do': 'Erase for good',
  'erase.doing': 'Erasing, writing the shop’s file anew, and looking for what is left …',

  'erased.title': 'Erased',
  'erased.records':
    '{count, plural, =0 {Nothing was left to take out here; what other devices hold goes when they hear of it.} one {# record lost its content for good.} other {# records lost their content for good.}}',
  'erased.drafts': '{count, plural, one {# half-typed entry went too.} other {# half-typed entries went too.}}',
  'erased.looked': 'Looked for, byte by byte',
  'erased.not_found':
    'Looked through {files, plural, one {# file} other {# files}}, {size}: not found.',
  'erased.texts': '{count, plural, one {# text was looked for.} other {# texts were looked for.}}',
  'erased.too_short':
    '{count, plural, one {# text is too short to be looked for: it is met by chance.} other {# texts are too short to be looked for: they are met by chance.}}',
  'erased.found': 'Still found in {where}.',
  'erased.still_said': 'These records still say it, and weren’t erased:',
  'erased.not_rewritten':
    'The shop’s file could not be written anew, since another program has it open. This is done at the next start; until then its bytes may be left.',
  'erased.place.store': 'the shop’s file ({name})',
  'erased.place.backup': 'the backup {name}',
  'erased.place.older_copy': 'the older backup {name}',
  'erased.place.bundle': 'a file of the whole shop with customers, made to look',
  'erased.no_copy':
    'The app keeps no copy of the words, so it can’t look again by itself. In the settings you can type words to look for.',
  'erased.disk':
    'A disk may hold traces that no program can reach. Encrypting the device keeps these from being read.',
  'erased.done': 'Back to the job',
  'erased.part': 'Erased on request by {person}, {moment}.',

  'older.title': 'Backups from before',
  'older.what':
    '{count, plural, one {# copy on this device was made before an erasure and may still hold what was erased:} other {# copies on this device were made before an erasure and may still hold what was erased:}}',
  'older.consequence':
    'Deleting them means that you can’t go back to how the shop was before. A new backup of today’s shop is made and checked first.',
  'older.delete': '{count, plural, one {Make a new backup and delete this one} other {Make a new backup and delete these #}}',
  'older.deleting': 'Making and checking a new backup …',
  'older.deleted': '{count, plural, one {# older copy deleted.} other {# older copies deleted.}}',
  'older.line': '{moment}, {why}, {size}',

  'erasures.title': 'Erased on request',
  'erasures.none': 'Nothing was erased yet. It is done from a job, at its customer.',
  'erasures.pending':
    'The shop’s file is still to be written anew after an erasure. Close other programs that have it open and start the app again.',
  'erasures.line': '{person}, {moment}',
  'erasures.jobs': '{count, plural, one {Job {numbers}} other {Jobs {numbers}}}',
  'erasures.records': '{count, plural, one {# record} other {# records}} lost their content',
  'erasures.here': 'on this device',
  'erasures.elsewhere': 'on another device',
  'erasures.unknown_job': 'not on this device',
  'erasures.look': 'Look for words',
  'erasures.look_note':
    'A name, a telephone number or a plate, one a line. They are looked for in the shop’s file, its backups and a file made to look, and are kept nowhere.',
  'erasures.look_words': 'Words to look for',
  'erasures.look_do': 'Look for them',
  'erasures.looking': 'Looking …',

  'kind.erasure': 'Erasure',
  'history.erased': 'Erased on request',
  'take.erases':
    '{count, plural, one {This file says that something was erased on request: # content on this device goes for good when you take it in.} other {This file says that something was erased on request: # contents on this device go for good when you take it in.}}',
  'take.refused':
    '{count, plural, one {# content in it was erased here and isn’t taken in.} other {# contents in it were erased here and aren’t taken in.}}',
  'restore.erased': 'What was erased since then stays erased.',
} as const;
