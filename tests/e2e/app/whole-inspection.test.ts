// The whole inspection in the app's own window; the core is asked past it, on the same store.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { App } from '../harness/app';
import { Server } from '../harness/headless';
import { WholeInspection } from '../pages/whole-inspection';
import { inApp } from '../pages/window';

let app: App;
let core: Server;
let story: WholeInspection;

beforeAll(async () => {
  app = await App.start();
  core = await Server.on(app.store);
  story = new WholeInspection(inApp(app, core));
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
