// A poor reading in a circuit where it does no harm, in Chromium at three sizes.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { Phone } from '../harness/browser';
import { HarmlessLeak } from '../pages/harmless-leak';
import { SIZES, onPhone, type CarryingWindow } from '../pages/window';

describe.each(Object.entries(SIZES))('a poor reading that does no harm: %s', (size, viewport) => {
  let phone: Phone;
  let window: CarryingWindow;
  let story: HarmlessLeak;

  beforeAll(async () => {
    phone = await Phone.start(viewport);
    window = onPhone(phone);
    story = new HarmlessLeak(window);
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
  test('its reading is outside the limit, the shift small', () => story.readsPoorly());
  test('the card says that it holds its pressure', async () => {
    await story.holdsItsPressure();
    await phone.picture(`browser-harmless-leak-${size.replace(' ', '-')}`);
  });
  test('the limit stands all the same', () => story.keepsTheLimit());
});
