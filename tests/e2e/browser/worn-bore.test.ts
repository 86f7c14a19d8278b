// A worn bore that gets a sleeve and a matching spring, in Chromium at three sizes.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { Phone } from '../harness/browser';
import { SIZES, onPhone, type CarryingWindow } from '../pages/window';
import { WornBore } from '../pages/worn-bore';

describe.each(Object.entries(SIZES))('a worn bore that gets a sleeve: %s', (size, viewport) => {
  let phone: Phone;
  let window: CarryingWindow;
  let story: WornBore;

  beforeAll(async () => {
    phone = await Phone.start(viewport);
    window = onPhone(phone);
    story = new WornBore(window, window.courier);
  });
  afterAll(async () => {
    await phone.close();
    window.remove();
  });

  test('she opens the job', () => story.opensTheJob('Marta Oyelaran'));
  test('its reading is far outside the limit', () => story.judgesIt());
  test('its diameters say the same', () => story.measuresIt());
  test('the ways out side by side', () => story.comparesTheWays());
  test('the sleeve is chosen and put on record', () => story.getsTheSleeve());
  test('before, predicted and after', async () => {
    await story.provesIt();
    await phone.picture(`browser-worn-bore-${size.replace(' ', '-')}`);
  });
  test('the report, on paper', () => story.reportsIt());
});
