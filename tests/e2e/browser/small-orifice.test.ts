// A healthy-looking reading whose circuit is ruined by a small orifice, in Chromium at three sizes.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { Phone } from '../harness/browser';
import { SmallOrifice } from '../pages/small-orifice';
import { SIZES, onPhone, type CarryingWindow } from '../pages/window';

describe.each(Object.entries(SIZES))('a good reading behind a small orifice: %s', (size, viewport) => {
  let phone: Phone;
  let window: CarryingWindow;
  let story: SmallOrifice;

  beforeAll(async () => {
    phone = await Phone.start(viewport);
    window = onPhone(phone);
    story = new SmallOrifice(window);
  });
  afterAll(async () => {
    await phone.close();
    window.remove();
  });

  test('she opens the job', async () => {
    await story.prepares();
    // The page was there before its units.
    await phone.open();
    await story.opensTheJob('Marta Oyelaran');
  });
  test('it reads well', () => story.readsWell());
  test('the pins find another orifice, and the card doesn’t pass the bore', async () => {
    await story.findsTheOrifice();
    await phone.picture(`browser-small-orifice-${size.replace(' ', '-')}`);
  });
  test('the right plate is tried out on paper', () => story.triesTheRightPlate());
  test('it is fitted, and the bore holds', () => story.getsTheRightPlate());
});
