// A healthy-looking reading whose circuit is ruined by a small orifice, in Chromium at three sizes.
import { SmallOrifice } from '../pages/small-orifice';
import { atThreeSizes } from '../pages/three-sizes';

atThreeSizes('a good reading behind a small orifice', 'small-orifice', (window) => new SmallOrifice(window), {
  'it reads well': (story) => story.readsWell(),
  'the pins find another orifice, and the card doesn’t pass the bore': async (story, picture) => {
    await story.findsTheOrifice();
    await picture();
  },
  'the right plate is tried out on paper': (story) => story.triesTheRightPlate(),
  'it is fitted, and the bore holds': (story) => story.getsTheRightPlate(),
});
