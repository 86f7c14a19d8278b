// A poor reading in a circuit where it does no harm, in Chromium at three sizes.
import { HarmlessLeak } from '../pages/harmless-leak';
import { atThreeSizes } from '../pages/three-sizes';

atThreeSizes('a poor reading that does no harm', 'harmless-leak', (window) => new HarmlessLeak(window), {
  'its reading is outside the limit, the shift small': (story) => story.readsPoorly(),
  'the card says that it holds its pressure': async (story, picture) => {
    await story.holdsItsPressure();
    await picture();
  },
  'the limit stands all the same': (story) => story.keepsTheLimit(),
});
