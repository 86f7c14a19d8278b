// What a profile gained: a spring out of wire and coils, and the limits of a solenoid's coil.
import { expect, test } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';

test('a spring is worked out from wire and coils, and taken over by a tap alone', async ({ phone }) => {
  const { page, server } = phone;
  const hands = new PhoneHands(page);
  await hands.press('Inês Harrowgate');
  const { units } = await ask(server, 'shop.overview', {});
  const unit = units[0]?.id ?? '';
  const springOf = async () => {
    const { circuits } = await ask(server, 'profile.get', { unit });
    const spring = circuits[0]?.bores[0]?.spring;
    if (!spring) throw new Error('the demo unit has no spring');
    return spring;
  };
  const before = await springOf();
  await phone.goTo(`#/unit/${unit}/part/spring/${before.id}`);
  await hands.press('Work it out from wire and coils');
  await hands.openPad('Diameter of the wire');
  // Shown in inches: 1 mm of wire, 8 mm of mean diameter, 10 coils, 30 mm free, 22 mm where it regulates.
  for (const [index, number] of ['0.03937', '0.35433', '10', '1.1811', '0.8661'].entries()) {
    await hands.keys(number);
    await hands.press(index < 4 ? /^Next: / : 'Done');
  }
  await hands.press('Work it out');
  // k = G d^4 / (8 D^3 N) = 80e9 * 1e-12 / (8 * 512e-9 * 10) = 1953 N/m = 11.15 lbf/in; 8 mm of it
  // is 15.6 N = 3.51 lbf. Nothing is taken yet.
  await hands.sees('Shear stress where it regulates');
  await hands.sees(/3\.5\d* lbf ±/);
  await hands.sees(/11\.\d* lbf\/in ±/);
  expect((await springOf()).body).toEqual(before.body);
  await lookOver(phone, 'a spring worked out from wire and coils');
  await phone.picture('spring-from-coils');
  await hands.press('Take these over');
  await hands.sees(/Taken over/);
  await hands.press(/^Save/);
  await expect
    .poll(async () => (await springOf()).body.source, waits('the spring saved'))
    .toMatch(/^Worked out from wire and coils: 3\.5.*±/);
  const { rate_n_per_m } = (await springOf()).body;
  expect(rate_n_per_m).toBeGreaterThan(1930);
  expect(rate_n_per_m).toBeLessThan(1976);
});

test('the check of a solenoid starts from the limits of the profile', async ({ phone }) => {
  const { page, server } = phone;
  const hands = new PhoneHands(page);
  await hands.press('Inês Harrowgate');
  const { jobs } = await ask(server, 'job.list', {});
  const job = jobs[0]?.id ?? '';
  const { unit } = (await ask(server, 'job.get', { job })).job;
  const circuit = (await ask(server, 'profile.get', { unit })).circuits[0];
  if (!circuit) throw new Error('the demo unit has no circuit');
  await phone.goTo(`#/unit/${unit}/part/circuit/${circuit.id}`);
  await hands.sees('Resistance of the solenoid’s coil');
  await lookOver(phone, 'a circuit with room for its coil');
  const coil = { low_ohm: 4.9, high_ohm: 5.7, limits_at_k: 293.15, source: 'service information' };
  await ask(server, 'profile.put', { id: circuit.id, part: { part: 'circuit', body: { ...circuit.body, coil } } });
  await phone.goTo(`#/job/${job}/check/solenoid/-`);
  await hands.sees(`The limits are those of the profile for ${circuit.body.name}.`);
  await hands.sees('4.9');
  await hands.sees('5.7');
  await lookOver(phone, 'a solenoid checked against the profile');
  await phone.picture('solenoid-limits');
});
