// A story of one bore, told in Chromium at three sizes.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { Phone } from '../harness/browser';
import type { BoreStory } from './bore-story';
import { SIZES, onPhone, type CarryingWindow } from './window';

/** What happens, in the order in which it is told; `picture` takes one of the screen. */
type Steps<Story> = Readonly<
  Record<string, (story: Story, picture: () => Promise<void>) => Promise<void>>
>;

export function atThreeSizes<Story extends BoreStory>(
  what: string,
  name: string,
  begins: (window: CarryingWindow) => Story,
  steps: Steps<Story>,
): void {
  describe.each(Object.entries(SIZES))(`${what}: %s`, (size, viewport) => {
    let phone: Phone;
    let window: CarryingWindow;
    let story: Story;

    beforeAll(async () => {
      phone = await Phone.start(viewport);
      window = onPhone(phone);
      story = begins(window);
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
    const picture = () => phone.picture(`browser-${name}-${size.replace(' ', '-')}`);
    test.each(Object.entries(steps))('%s', (_, tell) => tell(story, picture));
  });
}
