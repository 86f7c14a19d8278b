// The demo shop behind the screen: what a story starts from, and what the core says, past the
// interface. Types come from the command table; figures don't.
import type {
  Commands,
  JobEntry,
  TestPart,
  TestView,
} from '../../../ui/src/lib/generated/commands';
import type { Server } from '../harness/headless';
import { UNIT } from './figures';

export type { TestView };

export async function ask<Name extends keyof Commands>(
  server: Server,
  command: Name,
  args: Commands[Name]['args'],
): Promise<Commands[Name]['answer']> {
  return (await server.call(command, args)) as Commands[Name]['answer'];
}

/** The job with this vehicle. */
export async function jobOf(server: Server, vehicle: string): Promise<JobEntry> {
  const { jobs } = await ask(server, 'job.list', {});
  const job = jobs.find((entry) => entry.vehicle === vehicle);
  if (!job) throw new Error(`no job for ${vehicle}`);
  return job;
}

/** The tests of a job, in the order in which they were begun. */
export async function testsOf(server: Server, job: string): Promise<string[]> {
  const { bores } = await ask(server, 'job.get', { job });
  return bores
    .flatMap((bore) => bore.test_points.flatMap((point) => point.tests))
    .sort((a, b) => Date.parse(a.begun.at) - Date.parse(b.begun.at))
    .map(({ test }) => test);
}

/** What the core says of a test. */
export function testView(server: Server, test: string): Promise<TestView> {
  return ask(server, 'test.get', { test });
}

/** Readings of a test as they are stored, Pa. */
export async function storedReadings(server: Server, test: string): Promise<number[]> {
  const { readings } = await testView(server, test);
  return readings.map(({ reading }) => reading.vacuum_pa);
}

/** How far a test is on record when a story starts. */
export interface Begun {
  job: string;
  test: string;
}

/** A job on the demo unit with its cautions read, and a test of it ready for its first reading. */
export async function readyForReadings(server: Server): Promise<Begun> {
  const begun = await begunTest(server);
  const inHg = (reading: number) => reading * UNIT.inHg;
  await record(server, begun.test, {
    part: 'setup',
    body: {
      ambient: { by: 'barometer', pressure_pa: 100_900 },
      air_temperature_k: 293.15,
      valve_position: 'at_rest',
      orifice: 'blocked',
      surface: 'dry',
    },
  });
  await record(server, begun.test, {
    part: 'stand_check',
    body: {
      dead_head_vacuum_pa: inHg(28.1),
      orifices: [
        { label: '0.5', vacuum_pa: inHg(21.4) },
        { label: '1.1', vacuum_pa: inHg(5) },
      ],
    },
  });
  await record(server, begun.test, { part: 'blank', body: { vacuum_pa: inHg(27.7) } });
  return begun;
}

/** A bore of a job on the demo unit, read and so judged, nothing decided yet. */
export async function judgedBore(
  server: Server,
  readings: readonly string[],
): Promise<Begun & { bore: string }> {
  const begun = await readyForReadings(server);
  for (const [index, reading] of readings.entries()) {
    await record(server, begun.test, {
      part: 'reading',
      body: {
        vacuum_pa: Number(reading) * UNIT.inHg,
        reseated: index > 0,
        as_typed: `${reading} inHg`,
      },
    });
  }
  const { bores } = await ask(server, 'job.get', { job: begun.job });
  return { ...begun, bore: by(bores, () => true).bore };
}

/** The diameters of a worn bore and of its valve, on record past the interface. */
export async function measuredDiameters(server: Server, job: string, bore: string): Promise<void> {
  const reading = (direction_rad: number, diameter_m: number) => ({
    station_m: 0.005,
    direction_rad,
    diameter_m,
  });
  const { saved } = await ask(server, 'inspection.record', {
    job,
    bore,
    occasion: 'as_found',
    found: {
      check: 'diameters',
      bore: [reading(0, 8.118e-3), reading(1.57, 8.126e-3)],
      valve: [{ land: 'reaction land', direction_rad: 0, diameter_m: 7.97e-3 }],
    },
  });
  if (!saved) throw new Error('the diameters were not saved');
}

/** Nothing of the shop's parts can be had any longer. */
export async function emptyShelf(server: Server): Promise<void> {
  const { parts } = await ask(server, 'part.list', {});
  for (const { id, part } of parts) {
    const { saved } = await ask(server, 'part.record', { id, part: { ...part, withdrawn: true } });
    if (!saved) throw new Error(`${part.name} was not withdrawn`);
  }
}

function by<Item>(list: readonly Item[], is: (item: Item) => boolean): Item {
  const item = list.find(is);
  if (!item) throw new Error('the demo shop lacks what the story needs');
  return item;
}

/** A job just opened, on the demo unit unless another is named. */
export async function openJob(server: Server, unit = 'Larkmoor L6'): Promise<string> {
  const { people, units } = await ask(server, 'shop.overview', {});
  await ask(server, 'person.choose', { person: by(people, (it) => it.name === 'Marta Oyelaran').id });
  const { job } = await ask(server, 'job.open', {
    unit: by(units, (it) => it.name === unit).id,
    vehicle: { description: '2018 Wendover hatchback' },
    complaint: { text: 'Harsh 2-3 when hot' },
  });
  if (!job) throw new Error('the job was not opened');
  return job;
}

/** A job on the demo unit with its cautions read, and a test of it just begun. */
export async function begunTest(server: Server): Promise<Begun> {
  const { stands } = await ask(server, 'shop.overview', {});
  const job = await openJob(server);
  const view = await ask(server, 'job.get', { job });
  await ask(server, 'caution.read', { job, hazards: view.hazards.map(({ hazard }) => hazard) });
  const bore = by(view.bores, () => true);
  const { test } = await ask(server, 'test.begin', {
    job,
    bore: bore.bore,
    test_point: by(bore.test_points, () => true).test_point,
    stand: by(stands, (it) => it.stand.name === 'Bench 1, Hollow Lane').id,
  });
  return { job, test };
}

async function record(server: Server, test: string, part: TestPart): Promise<void> {
  const { saved, findings } = await ask(server, 'test.record', { test, part });
  if (!saved) throw new Error(`not recorded: ${JSON.stringify(findings)}`);
}

/** A pressure gauge of that name, and the tap on the first circuit of a unit that it is put to. */
export async function gaugeAtFeed(
  server: Server,
  unit: string,
  name: string,
): Promise<{ gauge: string; tap: string }> {
  const { id: gauge } = await ask(server, 'instrument.record', {
    instrument: {
      name,
      kind: 'pressure_gauge',
      limits_of_error_si: UNIT.psi,
      resolution_si: 0.5 * UNIT.psi,
      source: 'certificate',
    },
  });
  const profile = await ask(server, 'profile.get', { unit });
  const { id: tap } = await ask(server, 'profile.put', {
    part: {
      part: 'tap',
      body: {
        circuit: profile.circuits[0]?.id ?? '',
        order: '',
        name: 'SF',
        node: 'feed',
        condition: 'hot, any gear',
        low_pa: 60 * UNIT.psi,
        high_pa: 70 * UNIT.psi,
        source: 'Service information, table 7 (invented)',
      },
    },
  });
  if (!gauge || !tap) throw new Error('gauge or tap is not on record');
  return { gauge, tap };
}
