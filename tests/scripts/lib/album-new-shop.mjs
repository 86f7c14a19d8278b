// What the album shows of a shop that has nothing yet.

/** The first start, its empty lists, and a job that a colleague passed on. */
export async function takeNewShop({ call, shot, hands, bundle }) {
  await shot('first-start', 'The first start: units, altitude, a name', undefined, 'Who is working?');
  await call('person.add', { name: 'Ola Fenwick' });
  await hands.reload();
  await shot('no-jobs', 'A shop without a job', '#/jobs', 'No job yet');
  await shot('no-units', 'A shop without a unit', '#/units', 'No unit to work on');
  await shot('no-parts', 'A shop without parts', '#/parts', 'No parts yet');
  await shot('no-statistics', 'A shop without repairs', '#/statistics', 'No repair is on record here.');
  await hands.goTo('#/take-in', 'Take in a file');
  await hands.bring('File to take in', bundle);
  await hands.sees('Who signed');
  await shot('take-in-plan', 'What a file would bring, and who signed it', undefined, 'Who signed');
}
