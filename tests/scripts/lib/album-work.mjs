// What the album shows of the work on a bore that was judged: its machining sheet, its proof by
// pressure, and what is agreed and handed over.
const PSI = 6894.757293;
const INCH = 0.0254;

/** A sleeve's sheet as its option fills it in, then measured and signed. */
export async function machines({ call, shot, hands, job, bore }) {
  const diameter = (station_m, direction_rad, diameter_m) => ({ station_m, direction_rad, diameter_m });
  await call('inspection.record', {
    job,
    bore,
    occasion: 'as_found',
    note: '',
    found: {
      check: 'diameters',
      bore: [diameter(0.005, 0, 8.032e-3), diameter(0.005, 1.57, 8.038e-3)],
      valve: [{ land: 'reaction land', direction_rad: 0, diameter_m: 7.97e-3 }],
    },
  });
  const sheet = await call('machining.propose', { job, bore, way: 'sleeve' });
  const at = `#/job/${job}/machining/${bore}`;
  await call('machining.record', { job, bore, sheet });
  await shot('machining', 'The machining sheet of a sleeve', at, 'What the sheet says');
  const measured = (size, inches) => ({ size, read_m: inches * INCH, temperature_k: 294.15 });
  const { hazards } = await call('machining.get', { job, bore });
  await call('caution.read', { job, hazards: hazards.map(({ hazard }) => hazard) });
  await call('machining.record', {
    job,
    bore,
    sheet: {
      ...sheet,
      bolt_torque_nm: 11,
      bolt_sequence: 'From the middle outwards, twice round',
      bolt_source: 'Service information of the unit, sheet 14 (invented)',
      done: ['measure_start', 'guide_and_pilot', 'clamp', 'rough', 'finish', 'measure_finished', 'clean_after', 'fit_sleeve'],
      measurements: [
        measured('finished_bore', 0.35425),
        measured('sleeve_outer', 0.35433),
        measured('sleeve_inner', 0.29531),
        measured('valve', 0.29394),
      ],
    },
  });
  await hands.goTo('#/jobs', 'Demonstration shop');
  await hands.goTo(at, 'Steps');
  await hands.scrollTo(/^Steps/);
  await shot('machining-steps', 'Its steps, with what is measured between', undefined, 'As machined');
  await call('machining.sign', { job, bore, note: '' });
  await hands.goTo('#/jobs', 'Demonstration shop');
  await hands.goTo(at, 'Signed by Marta Oyelaran');
  await hands.scrollTo('Signed by Marta Oyelaran');
  await shot('machining-signed', 'The sheet signed, with what is open', undefined, 'Signed by Marta Oyelaran');
}

/** The repair, tested again, read at a tap and proved with hot oil. */
export async function proves(on) {
  const { call, shot, hands, unit, job, bore, readTest } = on;
  const { id: gauge } = await call('instrument.record', {
    instrument: {
      name: 'Oil gauge 0 to 400 psi, bench 2',
      kind: 'pressure_gauge',
      limits_of_error_si: 2 * PSI,
      resolution_si: PSI,
      source: 'Shop certificate 26-011, dead weights',
    },
  });
  const { circuits } = await call('profile.get', { unit });
  await call('profile.put', {
    part: {
      part: 'tap',
      body: {
        circuit: circuits[0].id,
        order: '',
        name: 'SF',
        node: 'feed',
        condition: 'hot, any gear',
        low_pa: 60 * PSI,
        high_pa: 70 * PSI,
        source: 'Service information of the unit, table 7 (invented)',
      },
    },
  });
  const { taps, car_hazards: hazards } = await call('tap_reading.get', { job });
  const { tap } = taps.find(({ body }) => body?.name === 'SF');
  await shot('taps-empty', 'The taps of the unit, none read', `#/job/${job}/taps`, 'Nothing read yet');
  await shot('tap-cautions', 'The cautions before a gauge goes on', `#/job/${job}/taps/${tap}`, 'Where was it read?');
  await call('caution.read', { job, hazards: hazards.map(({ hazard }) => hazard) });
  const readTap = (psi, line, occasion) =>
    call('tap_reading.record', {
      job,
      tap,
      figures: {
        pressure_pa: psi * PSI,
        line_pa: line * PSI,
        oil_temperature_k: 363.15,
        gauge,
        line_gauge: gauge,
        command: 'D, fourth',
        place: 'driving',
        occasion,
      },
    });
  await readTap(74, 100, 'as_found');

  const { answer } = await call('machining.get', { job, bore });
  await call('repair.record', { job, bore, work: { ...answer.machined, spring_load_n: 19.6, spring_rate_n_per_m: 2300 } });
  await readTest(on, [23.6, 23.7, 23.6]);
  await readTap(65, 100, 'after_repair');
  await hands.reload();
  await hands.goTo(`#/job/${job}/taps/${tap}`, 'Where was it read?');
  await hands.choose('While driving');
  await hands.sees('Pressure at the tap');
  await hands.openPad('Pressure at the tap');
  await hands.keys('71');
  await hands.press('Done');
  await hands.scrollTo('Pressure at the tap');
  await shot('tap', 'A reading at a tap as it is typed', undefined, 'Gauge at the tap');
  await shot('taps', 'What was read at the taps, and what it says', `#/job/${job}/taps`, 'D, fourth');

  const blank = await call('oil_check.get', { job, bore });
  await call('caution.read', { job, hazards: blank.hazards.map(({ hazard }) => hazard) });
  const { curve } = blank.answer;
  const whole = (pa) => Math.round(pa / PSI) * PSI;
  const point = ({ line_pa, rising_pa, falling_pa }, direction) => ({
    direction,
    line_pa: whole(line_pa),
    feed_pa: whole((direction === 'rising' ? rising_pa : falling_pa).likely),
  });
  const steps = [0, 8, 16, 24].map((index) => curve[index]);
  const recorded = await call('oil_check.record', {
    job,
    bore,
    figures: {
      feed_gauge: gauge,
      line_gauge: gauge,
      oil_temperature_k: 363.15,
      points: [
        ...steps.map((at) => point(at, 'rising')),
        ...steps.slice(0, 3).reverse().map((at) => point(at, 'falling')),
      ],
    },
  });
  const check = recorded.view?.id ?? recorded.id;
  const at = `#/job/${job}/oil-check/${bore}/${check}`;
  await shot('oil-check-read', 'Points read on the hot-oil bench, against the prediction', at, 'Predicted from what the repair left.');
}

/** Estimate, the customer's word, parts, warranty and sign-off. */
export async function handsOver({ call, shot, hands, job, bore }) {
  const at = `#/job/${job}/handover`;
  await shot('handover-empty', 'Nothing is agreed yet', at, 'Write an estimate');
  const estimate = {
    currency: 'EUR',
    decimals: 2,
    lines: [
      { what: 'Valve body out, cleaned, in', counted: 'hours', quantity_thousandths: 3500, price_minor: 9250 },
      { what: 'Bore reamed and lined with a sleeve', counted: 'hours', quantity_thousandths: 2250, price_minor: 9250 },
      { what: 'Sleeve, valve and spring', counted: 'pieces', quantity_thousandths: 1000, price_minor: 18_600 },
    ],
    note: 'Fluid and filter as they are used.',
    tax: { name: 'VAT', rate_millionths: 200_000, included: false },
  };
  const recorded = await call('estimate.record', { job, estimate });
  const of = (recorded.view ?? (await call('handover.get', { job }))).estimate;
  await hands.goTo(`${at}/estimate`, 'Line 1');
  await hands.scrollTo('Line 3');
  await shot('estimate', 'An estimate, added up as it is typed', undefined, 'Line 3');
  await hands.goTo(`${at}/estimate`, 'To be paid');
  await hands.scrollTo('Rate');
  await shot('estimate-sum', 'Its tax and what it comes to', undefined, 'To be paid');
  await shot('authorisation', 'What the customer agreed to', `${at}/authorisation`, 'Who agreed');
  await call('authorisation.record', {
    job,
    authorisation: {
      who: 'Ulla Brandtner',
      how: 'by_phone',
      given_at: new Date().toISOString(),
      up_to_minor: of.sums.total_minor,
      currency: 'EUR',
      decimals: 2,
      estimate: of.record,
      note: '',
    },
  });
  await shot('fitted', 'A fitted part with its lot', `${at}/fitted`, 'Lot, batch or serial number');
  const { parts } = await call('part.list');
  const listed = (name) => parts.find(({ part }) => part.name === name);
  for (const [name, lot] of [
    ['Sleeve 9.0 for valve 7.466', '26-09-A'],
    ['Valve 7.466, four grooves', '26-09-C'],
  ]) {
    const part = { job, bore, name, lot, quantity: 1, shop_part: listed(name)?.id ?? null, source: 'Own lathe' };
    await call('fitted.record', { part });
  }
  await shot('warranty', 'The shop’s own terms', `${at}/warranty`, 'For how many months');
  await call('warranty.record', {
    job,
    warranty: { months: 12, distance_m: 20_000_000, text: 'Parts and labour of this repair, in this workshop.' },
  });
  await hands.reload();
  await shot('handover', 'What is agreed and handed over', at, 'To be paid');
  await hands.scrollTo(/^Parts fitted/);
  await shot('handover-parts', 'Parts fitted, terms, comeback', undefined, 'Lot 26-09-A');
  await shot('sign-off', 'The sign-off, with what is open', `${at}/sign_off`, 'Who signs');
  const { open } = await call('handover.get', { job });
  await call('job.sign_off', { job, open, signed_by: 'Marta Oyelaran', statement: 'Road test 18 km, hot, no codes.' });
  await hands.reload();
  await hands.goTo(at, 'Open when it was signed');
  await hands.scrollTo('Open when it was signed');
  await shot('signed-off', 'Signed off', undefined, 'Open when it was signed');
}
