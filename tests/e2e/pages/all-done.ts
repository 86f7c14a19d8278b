// Everything else that can be done in a job, put on record past the interface: what a file of it
// then holds beside tests and repairs.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Server } from '../harness/headless';
import { ROOT } from '../harness/process';
import { UNIT } from './figures';
import { ask, gaugeAtFeed } from './shop';

const CAMERA = path.join(ROOT, 'tests', 'e2e', 'files', 'camera.jpg');

export const CAPTION = 'Land 3, <b>scored</b> at "the step"';
export const WHY_LEFT_OUT = 'No pins of this size here';

async function inspected(server: Server, job: string, bore: string): Promise<void> {
  const occasion = 'as_found';
  await ask(server, 'inspection.record', {
    job,
    bore,
    occasion,
    note: 'Drags at one place',
    found: { check: 'free_movement', dry: 'drags', wet: 'free', bolted: 'free', friction_n: 0.3 },
  });
  await ask(server, 'inspection.record', {
    job,
    occasion,
    found: {
      check: 'flatness',
      face: 'Upper face',
      gap_m: 20e-6,
      limit_m: 50e-6,
      source: 'Service information, table 2 (invented)',
    },
  });
  const { plan } = await ask(server, 'inspection.plan', { job });
  const left_out = [{ bore, check: 'orifice_bore' as const, why: WHY_LEFT_OUT }];
  await ask(server, 'inspection.change', { job, plan: { ...plan, left_out } });
}

async function relieved(server: Server, job: string, bore: string): Promise<void> {
  await ask(server, 'relief.record', {
    job,
    bore,
    figures: {
      presence: 'to_be_added',
      ball_diameter_m: 5e-3,
      seat_diameter_m: 3.2e-3,
      load_seated_n: 7.8,
      rate_n_per_m: 1500,
      lift_stop_m: 1e-3,
      source: 'Drawn by the shop',
      limit_pa: 180 * UNIT.psi,
      limit_source: 'Service information, table 4 (invented)',
      clearance_m: 90e-6,
    },
  });
}

async function proved(server: Server, job: string, bore: string): Promise<void> {
  await ask(server, 'caution.read', {
    job,
    hazards: ['high_voltage', 'hot_oil', 'raised_wheels', 'road_test', 'retained_springs'],
  });
  const { unit } = (await ask(server, 'job.get', { job })).job;
  const { gauge, tap } = await gaugeAtFeed(server, unit, 'Oil bench gauge');
  await ask(server, 'tap_reading.record', {
    job,
    tap,
    figures: {
      occasion: 'as_found',
      place: 'driving',
      pressure_pa: 65 * UNIT.psi,
      oil_temperature_k: 363.15,
      line_pa: 250 * UNIT.psi,
      command: 'D, fourth',
      gauge,
      line_gauge: gauge,
    },
  });
  await ask(server, 'oil_check.record', {
    job,
    bore,
    figures: {
      oil_temperature_k: 363.15,
      feed_gauge: gauge,
      line_gauge: gauge,
      points: [
        { line_pa: 120 * UNIT.psi, feed_pa: 64 * UNIT.psi, direction: 'rising' },
        { line_pa: 240 * UNIT.psi, feed_pa: 66 * UNIT.psi, direction: 'rising' },
      ],
    },
  });
}

async function agreed(server: Server, job: string): Promise<void> {
  await ask(server, 'estimate.record', {
    job,
    estimate: {
      currency: 'EUR',
      decimals: 2,
      note: '',
      lines: [
        {
          what: 'Valve body out and in',
          counted: 'hours',
          quantity_thousandths: 1750,
          price_minor: 9250,
        },
      ],
    },
  });
}

async function pictured(server: Server, job: string): Promise<void> {
  const { file } = await ask(server, 'file.begin', { name: 'camera.jpg' });
  await ask(server, 'file.add', { file, base64: readFileSync(CAMERA).toString('base64') });
  await ask(server, 'photo.add', { job, file, caption: CAPTION, shows: 'work_alone' });
}

/** All of it, in a job with a repair of this bore. */
export async function allDone(server: Server, job: string, bore: string): Promise<void> {
  await inspected(server, job, bore);
  await relieved(server, job, bore);
  await proved(server, job, bore);
  await agreed(server, job);
  await pictured(server, job);
}
