// What the album of pictures shows, in the order of the work, and how the shop comes to be so. Each
// `shot` goes to a place, waits for what is to be seen there, and is taken light and dark.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { handsOver, machines, proves } from './album-work.mjs';
import { ROOT } from './run.mjs';

const INHG = 3386.388640341;
const LBF = 4.4482216;
const INCH = 0.0254;

const named = (list, name) => list.find((it) => (it.stand ?? it).name === name).id;

/**
 * Takes the whole album. `shot` and `hands` work on the phone, `large` on one with large text, `wide`
 * at a desk; `call` asks the core.
 */
export async function takeAlbum(tools) {
  const { call, shot, hands } = tools;
  const { people, units, stands } = await call('shop.overview');
  const unit = named(units, 'Larkmoor L6');
  const stand = named(stands, 'Bench 1, Hollow Lane');

  await shot('people', 'Who is working', undefined, 'Who is working?');
  await call('person.choose', { person: named(people, 'Marta Oyelaran') });
  await hands.reload();
  await shot('jobs', 'The jobs, each with its verdict', '#/jobs', 'Demonstration shop');
  await hands.press('More');
  await shot('menu', 'The menu of the jobs', undefined, 'Settings');
  await hands.press('Close');
  await hands.open('Narrow it down');
  await hands.select(/^Where it stands/, 'too_close_to_call');
  await shot('find', 'The jobs narrowed down', undefined, 'Narrowed by 1 choice');
  await hands.press('Show all jobs');
  await shot('settle', 'Two people changed one thing', '#/settle', 'Two people changed');
  await shot('new-job', 'A new job', '#/jobs/new', 'Which unit is on the bench?');

  const { job } = await call('job.open', {
    unit,
    vehicle: { description: '2018 Wendover hatchback, 1.6' },
    complaint: { text: 'Harsh 2-3 once warm, fine when cold. Codes for two clutches.' },
    notes: { text: 'Feed tap 74 psi hot, climbs with line. Body comes out.' },
  });
  const first = await call('job.get', { job });
  const bore = first.bores[0].bore;
  const point = first.bores[0].test_points[0].test_point;
  const on = { ...tools, unit, job, bore, point, stand };
  await shot('cautions', 'The cautions, whole, before the first bench work', `#/job/${job}/cautions`, 'Caution 1 of 6');
  await call('caution.read', { job, hazards: first.hazards.map(({ hazard }) => hazard) });

  await inspects(on);
  const test = await tests(on);
  await shot('job', 'The job', `#/job/${job}`, 'Harsh 2-3 once warm');
  await photographs(on);
  await shot('job-edit', 'A part of the job is changed', `#/job/${job}/edit/complaint`, 'What is wrong, and when?');

  await shot('relief', 'A relief is checked before it is added', `#/job/${job}/relief/${bore}`, 'A relief contains');
  await shot('repair-form', 'A repair is put on record', `#/job/${job}/repair-form/${bore}`, 'What was done?');
  await shot('oil-check', 'A circuit is checked with hot oil', `#/job/${job}/oil-check/${bore}`, 'Predicted from what was measured of the bore.');
  await waysOut(on);
  await machines(on);
  await proves({ ...on, readTest });
  await handsOver(on);
  await reports(on);
  const bundle = await exchanges(on);
  await shopsOwn(on);
  await largeAndWide({ ...on, test });
  return { test, bundle };
}

/** A few of the screens with large text, and at a desk. */
async function largeAndWide({ large, wide, job, bore, test }) {
  const card = `#/job/${job}/bore/${bore}`;
  await large('large-jobs', 'The jobs', '#/jobs', 'Demonstration shop');
  await large('large-card', 'The card of a bore', card, 'What the checks say together');
  await large('large-judgement', 'A test: its steps', `#/test/${test}`, 'Solenoid feed regulator');
  await large('large-options', 'The repair options', `#/job/${job}/options/${bore}`, 'Feed at the highest line pressure');
  await large('large-machining', 'A machining sheet', `#/job/${job}/machining/${bore}`, 'What the sheet says');
  await large('large-handover', 'What is agreed', `#/job/${job}/handover`, 'To be paid');
  await wide('desk-jobs', 'At the bench PC: the jobs beside the work', `#/job/${job}`, 'Harsh 2-3 once warm');
  await wide('desk-keys', 'At the bench PC: the keys', undefined, 'Show these keys', '?');
  await wide('desk-judgement', 'At the bench PC: steps and judgement side by side', `#/test/${test}`, 'As recorded.');
  await wide('desk-plan', 'At the bench PC: the list and the work', `#/job/${job}/plan`, 'Body and case');
  await wide('desk-options', 'At the bench PC: repair options', `#/job/${job}/options/${bore}`, 'Feed at the highest line pressure');
  await wide('desk-explore', 'At the bench PC: a valve tried out', `#/job/${job}/explore/${bore}`, 'Nothing here is a measurement');
  await wide('desk-machining', 'At the bench PC: a machining sheet', `#/job/${job}/machining/${bore}`, 'What the sheet says');
  await wide('desk-handover', 'At the bench PC: what is agreed', `#/job/${job}/handover`, 'To be paid');
}

/** The checks of the bore, as far as they contradict each other and are settled. */
async function inspects({ call, shot, hands, job, bore }) {
  const card = `#/job/${job}/bore/${bore}`;
  const check = (name) => `#/job/${job}/check/${name}/${bore}`;
  const done = (found, occasion = 'as_found') =>
    call('inspection.record', { job, bore, occasion, found, note: '' });
  await shot('plan', 'The inspection plan', `#/job/${job}/plan`, 'Body and case');
  await shot('card-new', 'The card of a bore before its checks', card, 'No bore is passed on a vacuum reading alone');
  await shot('valve-train', 'A check: order of the valve train', check('valve_train'), 'How did it lie');
  await hands.goTo(check('free_movement'), 'Washed and dry');
  await hands.choose('Free');
  await shot('free-movement', 'A check: free movement', undefined, 'Washed and dry');
  await done({ check: 'free_movement', dry: 'free', wet: 'drags' });
  await shot('diameters', 'A check: diameters of bore and valve', check('diameters'), 'reaction land');
  await hands.goTo(check('spring'), 'Height where the valve regulates');
  await hands.openPad('Free length');
  await hands.keys('1.21');
  await hands.press('Close');
  await hands.openPad('Height where the valve regulates');
  await hands.keys('0.787');
  await shot('pad', 'The number pad: next field by one tap', undefined, 'Save the check');
  await hands.press('Close');
  await shot('spring', 'A check: the spring', undefined, 'Height where the valve regulates');
  await done({
    check: 'spring',
    height_regulating_m: 0.787 * INCH,
    loads: [
      { height_m: 0.866 * INCH, load_n: 3.87 * LBF },
      { height_m: 0.709 * INCH, load_n: 6.2 * LBF },
    ],
  });
  await shot('card-unsettled', 'Checks that leave something open, and what settles it', card, 'Not settled');
  // Dirt and varnish wash off: what is left after cleaning condemns.
  await done({ check: 'free_movement', dry: 'free', wet: 'drags', friction_n: 0.45 * LBF }, 'after_cleaning');
  await hands.goTo(`#/job/${job}`, 'Harsh 2-3');
  await shot('card-faulty', 'The force explains it', card, 'Doesn’t hold its pressure');
  await hands.goTo(`#/job/${job}/check/cross_passages/-`, 'Between which passages');
  await hands.scrollTo('How it holds');
  await shot('timer', 'A hold test with its timer', undefined, 'Watched for');
  await shot('wear-marks', 'A check: wear marks', check('wear_marks'), 'What you find');
  await shot('solenoid', 'A check of the body: a solenoid’s coil', `#/job/${job}/check/solenoid/-`, 'Resistance');
  await shot('leave-out', 'A bore is left out, with a reason', `#/job/${job}/leave-out/${bore}`, 'Why');
}

const SETUP = {
  ambient: { by: 'barometer', pressure_pa: 100_900 },
  air_temperature_k: 293.15,
  valve_position: 'at_rest',
  orifice: 'blocked',
  surface: 'dry',
};
const STAND_CHECK = {
  dead_head_vacuum_pa: 28.1 * INHG,
  orifices: [
    { label: '0.5', vacuum_pa: 21.4 * INHG },
    { label: '1.1', vacuum_pa: 5 * INHG },
  ],
};

/** A whole test with these readings, past the screens. */
async function readTest({ call, job, bore, point, stand }, readings) {
  const { test } = await call('test.begin', { job, bore, test_point: point, stand });
  const record = (part, body) => call('test.record', { test, part: { part, body } });
  await record('setup', SETUP);
  await record('stand_check', STAND_CHECK);
  await record('blank', { vacuum_pa: 27.7 * INHG });
  for (const [index, inHg] of readings.entries()) {
    await record('reading', {
      vacuum_pa: inHg * INHG,
      reseated: index > 0,
      as_typed: `${inHg} inHg`,
    });
  }
  await call('test.decide', { test, note: '' });
  return test;
}

/** One vacuum test from its first question to its decision. */
async function tests({ call, shot, hands, job, bore, point, stand }) {
  await shot('begin', 'A vacuum test begins', `#/job/${job}/begin/${bore}/${point}`, 'On which stand?');
  const { test } = await call('test.begin', { job, bore, test_point: point, stand });
  const at = `#/test/${test}`;
  const record = (part, body) => call('test.record', { test, part: { part, body } });
  await shot('air', 'How thick the air is', at, 'How thick is the air here today?');
  await hands.press(/^Set-up\b/);
  await shot('set-up', 'The set-up, confirmed by one tap', undefined, 'Is it set up as this test point asks?');
  await hands.press('One by one');
  await hands.choose('At rest');
  await shot('set-up-question', 'The set-up, one question at a time', undefined, 'Where does the valve stand?');
  await record('setup', SETUP);
  await hands.goTo('#/jobs', 'Demonstration shop');
  await hands.reload();
  await hands.goTo(at, 'Solenoid feed regulator');
  await hands.press(/^Check\b/);
  await shot('stand-check', 'The stand by itself', undefined, 'What does the stand read by itself?');
  await record('stand_check', STAND_CHECK);
  await hands.press(/^Blank\b/);
  await shot('blank', 'Plug and plate without the bore', undefined, 'What leaks without the bore?');
  await record('blank', { vacuum_pa: 27.7 * INHG });
  const reading = (inHg, reseated) =>
    record('reading', { vacuum_pa: inHg * INHG, reseated, as_typed: `${inHg} inHg` });
  await reading(17.2, false);
  await reading(16.9, true);
  await hands.goTo('#/jobs', 'Demonstration shop');
  await hands.reload();
  await hands.goTo(at, 'Solenoid feed regulator');
  await hands.press(/^Readings\b/);
  await hands.choose('Valve turned, plug seated anew');
  await hands.keys('17.3');
  await shot('reading', 'A reading, saved from the pad', undefined, 'Save reading 3');
  await hands.press('Save reading 3');
  await hands.sees('As recorded.');
  await hands.press('Put this message away');
  await shot('judgement', 'The verdict against the limit', undefined, 'As recorded.');
  await hands.scrollTo(/^What the leak does/);
  await shot('consequence', 'What the leak does to the pressure', undefined, 'As recorded.');
  await hands.scrollTo(/^The leak itself/);
  await shot('leak', 'The leak itself', undefined, 'As recorded.');
  await hands.press('Put on record');
  await shot('decision', 'The decision goes on record', undefined, 'Your own words, if any');
  await hands.press('Close');
  await call('test.decide', { test, note: 'Worn through. Quoting a sleeve.' });
  await shot('bore-history', 'The history of the bore', `#/job/${job}/bore-history/${bore}`, 'Outside limit');
  await shot('history', 'Who did what, latest first', `#/job/${job}/history`, 'Latest first.');
  return test;
}

/** The ways out of the worn bore side by side, the shop's parts, and the valve tried out. */
async function waysOut({ call, shot, hands, job, bore }) {
  await hands.goTo(`#/job/${job}/options/${bore}`, 'Worked out from what was measured');
  await shot('options', 'The repair options on one axis', undefined, 'Feed at the highest line pressure');
  await hands.scrollTo(/^\d\. Sleeve/);
  await shot('option', 'One option: why it stands there, what it does and needs', undefined, 'What it would do');
  await shot('parts', 'The shop’s own list of parts', '#/parts', 'Sleeve 9.0 for valve 7.466');
  const { parts } = await call('part.list');
  const sleeve = parts.find(({ part }) => part.item.part === 'sleeve').id;
  await shot('part', 'A part with its sizes', `#/part/${sleeve}`, 'Outside diameter');
  await shot('explore', 'A valve tried out', `#/job/${job}/explore/${bore}`, 'Nothing here is a measurement');
  await hands.scrollTo('Set the parts');
  await shot('explore-parts', 'Its parts under sliders', undefined, 'Balance orifice');
  await hands.press('Let line step up');
  await hands.scrollTo('In time');
  await shot('explore-motion', 'The step of line in time', undefined, 'Not measured, so taken as typical');
  await hands.scrollTo('Kept settings');
  await shot('explore-kept', 'Settings that somebody kept', undefined, 'Worn as 0101 was');
}

/** A photo of the work. */
async function photographs({ call, shot, hands, job }) {
  const { file } = await call('file.begin', { name: 'land.jpg' });
  const base64 = readFileSync(path.join(ROOT, 'tests', 'e2e', 'files', 'camera.jpg'), 'base64');
  await call('file.add', { file, base64 });
  await call('photo.add', { job, file, caption: 'Reaction land, scored from edge to groove', shows: 'work_alone' });
  await hands.reload();
  await hands.goTo(`#/job/${job}`, 'What new photos show');
  await hands.scrollTo(/^Photos$/);
  await shot('photos', 'The photos of a job', undefined, 'What new photos show');
  await hands.press(/Reaction land, scored/);
  await shot('photo', 'One of them', undefined, 'Reaction land, scored');
  await hands.press('Close');
}

/** The report, and what its files look like. */
async function reports({ call, shot, html, pdf, job }) {
  await shot('report', 'A report for the customer', `#/job/${job}/report`, 'Write the report');
  const written = async (version, format) => {
    const { file } = await call('report.write', { job, version, format, locale: 'en-US' });
    const bytes = await read(call, file);
    await call('file.drop', { file });
    return bytes;
  };
  await html('report-html', 'The report as a web page on a phone', await written('technical', 'html'));
  await pdf('report-technical', 'The technical report', await written('technical', 'pdf'));
  await pdf('report-customer', 'The customer’s page', await written('customer', 'pdf'));
}

/** The bytes of a file that the core made. */
async function read(call, file) {
  const pieces = [];
  for (let from = 0, more = true; more; ) {
    const piece = await call('file.read', { file, from });
    const bytes = Buffer.from(piece.base64, 'base64');
    pieces.push(bytes);
    from += bytes.length;
    more = !piece.last && bytes.length > 0;
  }
  return Buffer.concat(pieces);
}

/** The job is passed on, looked at and taken in; readings go out as a table and come in from one. */
async function exchanges({ call, shot, hands, job }) {
  await shot('pass-on', 'The job as a file for a colleague', `#/job/${job}/pass-on`, 'Make the file');
  await hands.press('Make the file');
  await shot('passed-on', 'The file is made', undefined, 'Save it on this device');
  await shot('take-in', 'A file from elsewhere is taken in', '#/take-in', 'Take in a file');
  const made = await call('bundle.make', { jobs: [job] });
  const buffer = await read(call, made.file);
  const { file } = await call('file.begin', { name: made.name });
  await call('file.add', { file, base64: buffer.toString('base64') });
  await call('look.file', { file });
  await shot('look', 'A file is only looked at', `#/look/${file}`, 'Harsh 2-3 once warm');
  const { list } = await call('look.jobs', { file });
  const inside = list.jobs[0].id;
  await shot('look-job', 'A job in a file that is looked at', `#/look/${file}/job/${inside}`, 'Outside limit');
  const { view } = await call('look.job', { file, job: inside });
  const looked = view.bores[0].test_points[0].tests[0].test;
  await shot('look-test', 'A test in it', `#/look/${file}/test/${looked}`, 'Outside limit');
  const repaired = view.bores.find(({ repairs }) => repairs.length > 0);
  const [{ repair }] = repaired.repairs;
  await shot('look-repair', 'A repair in it', `#/look/${file}/repair/${inside}/${repaired.bore}/${repair}`, 'Before, predicted, after');
  const within = (part, ...more) => ['#/look', file, part, inside, ...more].join('/');
  await shot('look-plan', 'Its inspection plan', within('plan'), 'Body and case');
  await shot('look-bore', 'The card of a bore in it', within('bore', repaired.bore), 'What the checks say together');
  await shot('look-taps', 'Pressures at the taps in it', within('taps'), 'None of it is in your shop');
  await shot('look-handover', 'What was agreed, in it', within('handover'), 'None of it is in your shop');
  await shot('look-history', 'The history of a job in it', within('history'), 'None of it is in your shop');
  await call('look.close', { file });
  await shot('readings-out', 'Readings as a table', `#/job/${job}/readings-out`, 'Readings as a table');
  await shot('readings-in', 'Readings of a table are taken in', `#/job/${job}/readings-in`, 'You see first what it would bring');
  await hands.reload();
  await hands.bring('Table to bring in', {
    name: 'log.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(['Time,Vacuum [inHg],Note', '10:00:01,16.6,', '10:00:09,16.5,seated anew', '10:00:20,n/a,'].join('\r\n')),
  });
  await hands.sees('Choose the bore.');
  await hands.select('Bore', { index: 1 });
  await hands.select('Test point', { index: 1 });
  await hands.sees('2 new readings');
  await shot('readings-plan', 'What a gauge’s log would bring', undefined, '2 new readings');
  return { name: made.name, mimeType: 'application/octet-stream', buffer };
}

/** Enough repairs of one kind for the shop's statistics, one of them come back. */
export async function takeStatistics({ call, shot, hands, wide }) {
  const { units, stands } = await call('shop.overview');
  const unit = named(units, 'Larkmoor L6');
  const stand = named(stands, 'Bench 1, Hollow Lane');
  const work = {
    option: 'new_valve',
    parts: 'Valve from the tray',
    valve_diameter_m: 7.984e-3,
    valve_uncertainty_m: 2.5e-6,
  };
  const description = '2014 Wendover estate, 1.6, school run';
  const open = async (text) => {
    const { job } = await call('job.open', { unit, vehicle: { description }, complaint: { text } });
    const { bores, hazards } = await call('job.get', { job });
    await call('caution.read', { job, hazards: hazards.map(({ hazard }) => hazard) });
    const [{ bore, test_points: points }] = bores;
    return { call, job, bore, point: points[0].test_point, stand };
  };
  const jobs = [];
  for (let more = 0; more < 6; more += 1) {
    const on = await open('Harsh 2-3 when hot.');
    const apart = more / 5;
    await readTest(on, [16.2 + apart, 16.4 + apart, 16.3 + apart]);
    await call('repair.record', { job: on.job, bore: on.bore, work });
    await readTest(on, [22.1 + apart / 2, 22.3 + apart / 2, 22.2 + apart / 2]);
    jobs.push(on);
  }
  const again = await open('Harsh 2-3 again since Tuesday.');
  await hands.goTo(`#/job/${again.job}/handover/comeback`, 'Earlier job');
  await hands.select('Earlier job', jobs[0].job);
  await hands.choose('The same');
  await shot('comeback', 'A job is said to be a comeback', undefined, 'Fault');
  await call('comeback.record', {
    job: again.job,
    comeback: { earlier: jobs[0].job, fault: 'same', found_by: 'customer', bore: again.bore, note: '' },
  });
  await shot('statistics', 'What the shop’s own records say of its repairs', '#/statistics', 'Interval of Clopper and Pearson.');
  await hands.scrollTo(/^Gap factor after/);
  await shot('statistics-plot', 'Repairs of one kind, before and after', undefined, 'Single repairs');
  await wide('desk-statistics', 'At the bench PC: the statistics', '#/statistics', 'Interval of Clopper and Pearson.');
}

/** The shop's units, instruments, files and settings; a repair of the demo shop. */
async function shopsOwn({ call, shot, hands, unit, stand, job }) {
  const { jobs } = await call('job.list', {});
  for (const entry of jobs.filter(({ repairs }) => repairs > 0)) {
    const { bores } = await call('job.get', { job: entry.id });
    const repaired = bores.find(({ repairs }) => repairs.some((it) => it.tested_since));
    if (!repaired) continue;
    const { repair } = repaired.repairs.find((it) => it.tested_since);
    await shot('repair', 'Before, predicted and after', `#/job/${entry.id}/repair/${repaired.bore}/${repair}`, 'Before');
    break;
  }
  await shot('erase', 'A customer’s data are erased', `#/job/${job}/erase`, 'Erase this customer’s data');
  await shot('units', 'The units that the shop works on', '#/units', 'Larkmoor L6');
  await shot('unit', 'A unit', `#/unit/${unit}`, 'Dimensions as new');
  await shot('unit-edit', 'A unit’s profile, part by part', `#/unit/${unit}/edit`, 'Its parts');
  const { circuits } = await call('profile.get', { unit });
  const land = circuits[0].bores[0].lands[2].id;
  await shot('unit-part', 'A land, drawn to scale as it is typed', `#/unit/${unit}/part/land/${land}`, 'Diameter');
  const spring = circuits[0].bores[0].spring.id;
  await hands.goTo(`#/unit/${unit}/part/spring/${spring}`, 'Work it out from wire and coils');
  await hands.press('Work it out from wire and coils');
  await hands.openPad('Diameter of the wire');
  for (const [index, number] of ['0.0394', '0.3543', '10', '1.18', '0.866'].entries()) {
    await hands.keys(number);
    await hands.press(index < 4 ? /^Next: / : 'Done');
  }
  await hands.press('Work it out');
  await hands.scrollTo('Height where the valve regulates');
  await shot('spring-coils', 'A spring worked out from its wire and coils', undefined, 'Shear stress where it regulates');
  await shot('unit-circuit', 'A circuit: its pressures, its solenoids', `#/unit/${unit}/part/circuit/${circuits[0].id}`, 'Resistance of the solenoid’s coil');
  await shot('unit-test-point', 'What a vacuum test isolates, and its limit', `#/unit/${unit}/part/test_point/${circuits[0].bores[0].test_points[0].id}`, 'Name');
  await shot('unit-new', 'A new unit', '#/units/new', 'Name');
  await shot('instruments', 'Instruments, and which are overdue', '#/instruments', 'calibration overdue since');
  await shot('instrument', 'A new instrument', '#/instrument/new', 'What it measures');
  await shot('stand', 'A vacuum stand and its orifices', `#/stand/${stand}`, 'Calibrated orifices');
  await shot('guide', 'The guide', '#/guide', 'How each check is done');
  await shot('guide-page', 'A page of the guide', '#/guide/vacuum_test', 'Where this comes from');
  await shot('settings', 'Settings', '#/settings', 'How are numbers written?');
  await call('backup.make');
  await hands.reload();
  await hands.goTo('#/settings', 'Backups on this device');
  await hands.scrollTo('Backups on this device');
  await shot('backups', 'Backups', undefined, 'Make a backup now');
  await hands.press(/^Go back to /);
  await shot('go-back', 'Going back to one says what it means', undefined, 'is no longer in the shop');
  await hands.press('Leave it as it is');
  await shot('devices', 'Devices and people', '#/devices', 'This device');
  await shot('nowhere', 'An address that leads nowhere', '#/somewhere', 'Nothing is here');
  await hands.goTo('#/jobs', 'Demonstration shop');
}
