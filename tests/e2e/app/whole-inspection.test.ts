// The whole inspection in the app's own window; the core is asked past it, on the same store.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { App } from '../harness/app';
import { Server } from '../harness/headless';
import { waits } from '../pages/phone-hands';
import { Technician } from '../pages/technician';
import { WholeInspection } from '../pages/whole-inspection';
import { WindowHands } from '../pages/window-hands';

let app: App;
let core: Server;
let story: WholeInspection;

beforeAll(async () => {
  app = await App.start();
  const hands = new WindowHands(() => app.page);
  const technician = new Technician(hands);
  core = await Server.on(app.store);
  const hash = () => app.page.execute(() => location.hash);
  const goTo = async (place: string) => {
    await app.page.execute((to) => {
      location.hash = to;
    }, place);
    await expect.poll(hash, waits(place)).toBe(place);
  };
  story = new WholeInspection({ hands, technician, core, goTo, look: async () => undefined });
});
afterAll(async () => {
  await core.kill();
  await app.close();
});

describe('a whole inspection', () => {
  test('it begins with the cautions and the plan', async () => {
    await story.prepares();
    await story.plansIt();
  });
  test('one bore holds its pressure', () => story.findsOneSound());
  test('one is too close to call, and settled', () => story.settlesOneTooClose());
  test('of one the checks contradict each other, until it is known why', () => story.explainsAContradiction());
  test('one sticks', () => story.findsOneThatSticks());
  test('one has a tired spring', () => story.findsATiredSpring());
  test('the plan shows it all', async () => {
    await story.seesItAll();
    app.picture('app-inspected');
  });
});
