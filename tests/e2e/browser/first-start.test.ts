// The first start asks for units, altitude and a name; empty places say what comes next.
import { Phone, expect, test } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';

test('an empty shop is begun with units, altitude and a name', async () => {
  const phone = await Phone.start({ empty: true, locale: 'de-DE' });
  try {
    const hands = new PhoneHands(phone.page);
    await hands.sees('Who is working?');
    // A country that reads metres starts with them.
    expect(await phone.page.getByRole('radio', { name: 'kPa, mm, °C' }).isChecked()).toBe(true);
    await lookOver(phone, 'first start');
    await hands.choose('Units', 'psi, inHg, in');
    await hands.openPad('Altitude of the shop, if known');
    await hands.keys('4855');
    await hands.press('Done');
    await hands.sees('4855');
    await hands.write('Name', 'Ola Fenwick');
    await hands.press('Work under this name');
    await hands.sees('Ola Fenwick is working');
    await hands.sees('No job yet');
    await lookOver(phone, 'no jobs');

    // Kept: nothing is asked again, and the settings show it.
    await phone.restart();
    await hands.sees('Ola Fenwick is working');
    await phone.goTo('#/settings');
    await hands.sees('Altitude of the shop, if known');
    const altitude = hands.field('Altitude of the shop, if known').getByRole('button').first();
    await expect.poll(async () => (await altitude.innerText()).trim(), waits('the altitude')).toMatch(/^4855(,0+)?$/);
    expect(await phone.page.getByRole('radio', { name: 'psi' }).isChecked()).toBe(true);
    await lookOver(phone, 'settings of an empty shop');

    // Each empty place has its one next step.
    for (const place of ['#/units', '#/jobs/new']) {
      await phone.goTo(place);
      await hands.sees('No unit to work on');
      await lookOver(phone, `no unit, ${place}`);
    }
    await hands.press('Take in a file');
    await hands.sees('Choose the file');
    await phone.goTo('#/parts');
    await hands.sees('No parts yet');
    await lookOver(phone, 'no parts');
  } finally {
    await phone.close();
  }
});

test('the demonstration shop is taken out and brought back', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  await hands.sees('Who is working?');
  await hands.press('Marta Oyelaran');
  await hands.sees('Demonstration shop: invented');
  await phone.goTo('#/settings');
  await hands.press('Take out: The demonstration shop');
  await hands.sees('Taken out: The demonstration shop');
  await hands.press('Bring the demonstration shop back');
  await hands.sees('The demonstration shop is back.');
  await lookOver(phone, 'the demonstration shop is back');
});
