import { enApp } from './en-app';
import { enCsv } from './en-csv';
import { enDurability } from './en-durability';
import { enErasure } from './en-erasure';
import { enExchange } from './en-exchange';
import { enFind } from './en-find';
import { enExplore } from './en-explore';
import { enFiles } from './en-files';
import { enHandover } from './en-handover';
import { enHistory } from './en-history';
import { enGuide } from './en-guide';
import { enInspection } from './en-inspection';
import { enLook } from './en-look';
import { enMachining } from './en-machining';
import { enOptions } from './en-options';
import { enParts } from './en-parts';
import { enProfile } from './en-profile';
import { enProof } from './en-proof';
import { enRepair } from './en-repair';
import { enSeal } from './en-seal';
import { enPhotos } from './en-photos';
import { enReport } from './en-report';
import { enTest } from './en-test';
import { enTrust } from './en-trust';

/**
 * All wording of the app, in English. ICU MessageFormat; a plural branch is a phrase, not a word.
 * Another language is another file of the same shape.
 */
export const en = {
  'bar.back': 'Back',
  'bar.more': 'More',
  'bar.undo': 'Undo: {change}',
  'bar.undo_nothing': 'Nothing to undo',
  'sheet.close': 'Close',
  'toast.undo': 'Undo',
  'toast.close': 'Put this message away',

  'finding.note': 'Note:',
  'finding.warning': 'Look again:',
  'finding.blocking': 'Needs fixing:',

  'field.enter': 'Tap to enter',
  'field.unit': 'Unit',
  'field.unit_of': 'Unit: {field}',
  'field.unit_change': '{field}: unit {unit}, change',
  'field.unit_typed': 'Says which unit you typed it in. The number stays as it is.',
  'field.unit_stored': 'Shows the stored value in this unit. The value itself stays as it was.',

  'pad.equals': '= {value}',
  'pad.decimal': 'Decimal mark',
  'pad.sign': 'Change sign',
  'pad.erase': 'Erase last digit',
  'pad.clear': 'Clear',
  'pad.last': 'Last value',
  'pad.done': 'Done',
  'pad.next': 'Next',
  'pad.next_field': 'Next: {field}',

  'typed.empty': 'No number yet.',
  'typed.not_a_number': 'This can’t be read as a number. It is kept as typed.',
  'typed.ambiguous_mark':
    'This could mean {grouped} or {decimal}. Type it without the thousands mark, or with decimals.',
  'typed.wrong_decimal_mark': 'The decimal mark here is “{expected}”.',
  'typed.negative': 'This can’t be below zero.',
  'typed.too_many_digits': 'More than {limit} digits can’t be kept exactly.',

  'judgement.within': 'Within limit',
  'judgement.close': 'Too close to call',
  'judgement.outside': 'Outside limit',
  'judgement.not_judged': 'Not judged',

  'figure.likely': 'likely {low} to {high}',

  'drawing.scale_note': 'To scale; clearances drawn larger than scale.',

  'plot.read_off': 'Read values off along {axis}',
  'plot.read_off_hint': 'Touch the plot to read values off.',
  'plot.no_value': 'none',
  'plot.value_band': '{value} ({low} to {high})',
  'plot.series_value': '{series} {value}',
  'plot.readout': '{axis} {x} {unit}: {values}',
  'plot.as_table': 'Values as a table',
  'plot.column': '{series}, {unit}',
  'plot.limit_row': 'Limit, {label}: {value} {unit}',
  'plot.mark_row': '{label}: {y} at {x}',

  'signal.danger': 'DANGER',
  'signal.warning': 'WARNING',
  'signal.caution': 'CAUTION',
  'hazard.acknowledge': 'Read and understood',
  'hazard.acknowledged': 'Acknowledged {moment}',
  'hazard.who_decides':
    'The manufacturer’s service information, local rules and trained people decide what is safe here.',
  'hazard.hot_oil.title': 'Hot oil under pressure',
  'hazard.hot_oil.harm':
    'A loose fitting, a burst gauge hose or a body taken off hot sprays oil that burns skin and eyes.',
  'hazard.hot_oil.avoid_1':
    'Gauge, hose and fittings rated above the highest pressure you expect; look them over before each use.',
  'hazard.hot_oil.avoid_2':
    'Eye protection, gloves and sleeves. Hoses clear of hot and moving parts.',
  'hazard.hot_oil.avoid_3': 'Engine off, pressure gone and oil cooled before you open anything.',
  'hazard.hot_oil.short': 'Hot oil under pressure: hoses, eyes, skin.',
  'hazard.retained_springs.title': 'Springs under load',
  'hazard.retained_springs.harm':
    'A retainer let go too soon shoots the plug and the spring out of the bore.',
  'hazard.retained_springs.avoid_1':
    'Eye protection. Press the plug in and hold it while the retainer comes out.',
  'hazard.retained_springs.avoid_2': 'Let it out slowly, pointed away from every face.',
  'hazard.retained_springs.short': 'Springs under load: hold the plug, mind your eyes.',
  'hazard.compressed_air.title': 'Compressed air, flying parts',
  'hazard.compressed_air.harm':
    'Air throws valves, plugs and check balls out of a bore, and drives dirt into eyes and skin.',
  'hazard.compressed_air.avoid_1':
    'Eye protection. Never aim air at a person, nor at your own hand.',
  'hazard.compressed_air.avoid_2':
    'Regulate the air down to what the service information and local rules allow before it meets a bore.',
  'hazard.compressed_air.avoid_3': 'Hold parts back with a rag or a plate, never with a bare finger.',
  'hazard.compressed_air.short': 'Compressed air: eyes, flying parts, pressure set low.',
  'hazard.solvent.title': 'Cleaning solvent',
  'hazard.solvent.harm': 'Its vapour burns and harms whoever breathes it; the liquid harms skin and eyes.',
  'hazard.solvent.avoid_1': 'Fresh air, no flame, no sparks where you clean and where parts dry.',
  'hazard.solvent.avoid_2': 'Gloves and goggles that suit the solvent, as its data sheet says.',
  'hazard.solvent.avoid_3': 'Let bore and valve dry fully before the vacuum hose goes on.',
  'hazard.solvent.short': 'Solvent: fresh air, no flame, gloves.',
  'hazard.vacuum_pump.title': 'Vacuum pump',
  'hazard.vacuum_pump.harm':
    'Solvent drawn into the pump can catch fire; its outlet blows oil mist; its casing gets hot.',
  'hazard.vacuum_pump.avoid_1': 'No solvent, fuel or wet part on the hose. Dry first.',
  'hazard.vacuum_pump.avoid_2': 'Outlet away from people and flames, filter in place.',
  'hazard.vacuum_pump.avoid_3': 'Glass jars only where shielded; fingers and skin off the open hose.',
  'hazard.vacuum_pump.short': 'Vacuum pump: no solvent in, outlet away from people.',
  'hazard.high_voltage.title': 'High voltage of a hybrid',
  'hazard.high_voltage.harm': 'Cables and parts in and around the transmission can kill, also with the engine off.',
  'hazard.high_voltage.avoid_1':
    'A trained person isolates the high-voltage system and proves that it is dead before anything is opened.',
  'hazard.high_voltage.avoid_2': 'Locked against switching on, and marked, for as long as you work.',
  'hazard.high_voltage.avoid_3': 'Not sure whether this vehicle has one? Find out first.',
  'hazard.high_voltage.short': 'High voltage: isolated and proved dead by a trained person.',

  'error.retry': 'Try again',
  'error.nothing_changed': 'Nothing was changed.',
  'error.draft_kept': 'What you typed is kept as a draft on this device.',
  'error.update_app': 'Update the app on this device, then open it again.',
  'error.bad_request.what': 'Something on this screen was not accepted.',
  'error.bad_request.todo': 'Look over what was entered; if it is right, go back and try again.',
  'error.unknown_command.what': 'This screen asked for something that this version can’t do.',
  'error.not_found.what': 'This entry is no longer here.',
  'error.not_found.means': 'It was removed or undone since this screen was opened.',
  'error.not_found.todo': 'Go back; undo brings a removed entry back.',
  'error.no_store.what': 'No shop file is open.',
  'error.no_store.means': 'You can calculate, but nothing can be kept.',
  'error.no_store.todo': 'Start the app with the shop’s file.',
  'error.store_locked.what': 'Another program has the shop’s file open for writing.',
  'error.store_locked.todo': 'Close the other window or program, then try again.',
  'error.store_read_only.what': 'The shop’s file can’t be written to.',
  'error.store_read_only.means': 'You can read everything; nothing new is saved.',
  'error.store_read_only.todo':
    'Give this user the right to write to the app’s folder, then start again.',
  'error.disk_full.what': 'This device has no space left.',
  'error.disk_full.means': 'The last change was not saved. Everything saved before is safe.',
  'error.disk_full.todo': 'Free some space, then save again.',
  'error.newer_schema.what': 'The shop’s file was written by a newer version of this app.',
  'error.newer_schema.means': 'It was left untouched, so that nothing in it is lost.',
  'error.not_a_store.what': 'The file in the app’s folder is not a shop file of this app.',
  'error.not_a_store.means': 'It was left untouched.',
  'error.not_a_store.todo': 'Move it somewhere else, or put the shop’s own file back, then start again.',
  'error.store_damaged.what': 'The shop’s file is damaged.',
  'error.store_damaged.means': 'It was left as it is. Part of it may still be readable.',
  'error.store_damaged.todo':
    'Don’t delete it. Save what can be read, or go back to a backup, below.',
  'error.io.what': 'The device refused to read or write.',
  'error.io.todo': 'Check that the storage is still connected, then try again.',
  'error.no_author.what': 'Nobody is chosen to sign this.',
  'error.no_author.todo': 'Choose who is working on this device, then save again.',
  'error.no_decision.what': 'This test gives no decision yet.',
  'error.no_decision.todo': 'See what the test still lacks, and add it.',
  'error.nothing_to_undo.what': 'There is nothing to undo.',
  'error.nothing_to_undo.todo': 'Changes made on other devices are undone there.',
  'error.out_of_range.what': 'A number lies outside what can be calculated.',
  'error.out_of_range.todo': 'Check the number and its unit.',
  'error.no_solution.what': 'These figures have no solution.',
  'error.no_solution.means': 'At least one of them can’t be right, or the valve can’t work this way.',
  'error.no_solution.todo': 'Check dimensions, spring and orifice for a slip.',
  'error.too_many_tasks.what': 'As many long calculations run as may at once.',
  'error.too_many_tasks.todo': 'Wait until one is done, or stop one, then try again.',
  'error.internal.what': 'Something went wrong inside the app.',
  'error.internal.todo': 'Go back and try again. If it happens again, report what you did.',
  'error.unreachable.what': 'The app’s core did not answer.',
  'error.unreachable.todo': 'Wait a moment and try again, or close the app and open it again.',
  'error.garbled_answer.what': 'The app’s core gave an answer that can’t be read.',

  ...enApp,
  ...enCsv,
  ...enDurability,
  ...enExchange,
  ...enInspection,
  ...enLook,
  ...enExplore,
  ...enFind,
  ...enSeal,
  ...enFiles,
  ...enGuide,
  ...enMachining,
  ...enOptions,
  ...enParts,
  ...enProof,
  ...enTrust,
  ...enProfile,
  ...enTest,
  ...enRepair,
  ...enPhotos,
  ...enReport,
  ...enErasure,
  ...enHistory,
  ...enHandover,
} as const;
