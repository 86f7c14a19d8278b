// A worn bore that gets a sleeve and a matching spring, in Chromium at three sizes.
import { atThreeSizes } from '../pages/three-sizes';
import { WornBore } from '../pages/worn-bore';

atThreeSizes('a worn bore that gets a sleeve', 'worn-bore', (window) => new WornBore(window, window.courier), {
  'its reading is far outside the limit': (story) => story.judgesIt(),
  'its diameters say the same': (story) => story.measuresIt(),
  'the ways out side by side': (story) => story.comparesTheWays(),
  'the sleeve is chosen and put on record': (story) => story.getsTheSleeve(),
  'before, predicted and after': async (story, picture) => {
    await story.provesIt();
    await picture();
  },
  'the report, on paper': (story) => story.reportsIt(),
});
