import { cleanup, screen, waitFor, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { TestView } from '$lib/generated/commands';
import { toSi } from '$lib/quantity';
import { MEASURED, untouched } from '../../components/test/testing/test-view';
import { BenchCore, openTest } from './testing/bench';

const user = userEvent.setup();
beforeEach(() => {
  window.scrollTo = () => undefined;
});
afterEach(cleanup);

const inHg = (value: number) => toSi(value, 'inHg');
const button = (name: string | RegExp) => screen.getByRole('button', { name });
const press = async (name: string | RegExp) => user.click(await screen.findByRole('button', { name }));
const answer = async (name: string | RegExp) => user.click(await screen.findByRole('radio', { name }));

/** Types a number on the pad of a field. */
async function type(field: string, keys: string) {
  if (!screen.queryByRole('dialog', { name: field })) await press(new RegExp(`^${field} `));
  const pad = within(await screen.findByRole('dialog', { name: field }));
  await user.click(pad.getByRole('button', { name: 'Clear' }));
  for (const key of keys) {
    await user.click(pad.getByRole('button', { name: key === '.' ? 'Decimal mark' : key }));
  }
  return pad;
}

/** Up to the readings: everything before them is on record. */
const ready = (change: Partial<TestView> = {}): TestView => ({
  ...structuredClone(MEASURED),
  readings: [],
  ...change,
});

describe('the steps of a vacuum test', () => {
  it('open where the work is gone on with, and any can be jumped to', async () => {
    await openTest(new BenchCore());
    expect(await screen.findByText('How thick is the air here today?')).toBeTruthy();
    await press(/^Blank/);
    expect(screen.getByText('What leaks without the bore?')).toBeTruthy();
    expect(button(/^Blank/).getAttribute('aria-current')).toBe('step');
  });

  it('record air and set-up as one, only once every question is answered', async () => {
    const core = new BenchCore();
    await openTest(core);
    await answer('Barometer');
    await type('Station pressure at the bench', '24.98');
    await press('Done');
    await press('Next');
    await press('One by one');
    await answer(/^At rest/);
    await press('Next');
    await answer(/^Blocked off/);
    await press('Next');
    expect(core.recorded()).toEqual([]);
    await answer(/^Washed and dry/);
    await press('Save and go on');
    await screen.findByText('What does the stand read by itself?');
    expect(core.recorded()).toEqual([
      {
        part: 'setup',
        body: {
          ambient: { by: 'barometer', pressure_pa: expect.closeTo(inHg(24.98), 6) },
          air_temperature_k: MEASURED.suggested.setup.air_temperature_k,
          valve_position: 'at_rest',
          orifice: 'blocked',
          surface: 'dry',
        },
      },
    ]);
  });

  it('mark what the test point asks for as suggested, and choose nothing by themselves', async () => {
    const core = new BenchCore();
    await openTest(core);
    await press(/^Set-up/);
    await press('One by one');
    const offered = await screen.findAllByRole('radio', { name: /suggested/ });
    expect(offered).toHaveLength(1);
    expect(screen.queryAllByRole('radio', { checked: true })).toEqual([]);
    expect(button('Next')).toHaveProperty('disabled', true);
  });

  it('record what the test point asks for once somebody says that it is so', async () => {
    const core = new BenchCore();
    await openTest(core);
    await answer('Barometer');
    await type('Station pressure at the bench', '24.98');
    await press('Done');
    await press('Next');
    await screen.findByText('Is it set up as this test point asks?');
    expect(core.recorded()).toEqual([]);
    await press('Yes, as shown');
    await screen.findByText('What does the stand read by itself?');
    const { valve_position, orifice, surface } = MEASURED.suggested.setup;
    expect(core.recorded()).toMatchObject([
      { part: 'setup', body: { valve_position, orifice, surface } },
    ]);
  });

  it('save from the pad of their last number, and go on', async () => {
    const core = new BenchCore(ready({ blank: null }));
    await openTest(core);
    const pad = await type('Plug and plate alone', '27.7');
    await user.click(pad.getByRole('button', { name: 'Save and go on' }));
    await screen.findByText('Reading 1 of 3');
    expect(core.recorded()).toMatchObject([{ part: 'blank', body: { as_typed: '27.7 inHg' } }]);
  });

  it('offer the last value typed, and fill in nothing by themselves', async () => {
    const core = new BenchCore(ready({ blank: null }));
    await openTest(core);
    await type('Plug and plate alone', '27.7');
    await press('Done');
    await waitFor(() => expect(core.drafts.has('values.last')).toBe(true));
    cleanup();
    const later = new BenchCore(ready({ blank: null }));
    later.drafts.set('values.last', core.drafts.get('values.last'));
    await openTest(later);
    await screen.findByText('What leaks without the bore?');
    await screen.findByRole('button', { name: /^Plug and plate alone Tap to enter/ });
    await press(/^Plug and plate alone /);
    await press('Last value 27.7 inHg');
    expect(screen.getByRole<HTMLInputElement>('textbox').value).toBe('27.7');
  });

  it('take over today’s stand check with one tap', async () => {
    const today = MEASURED.stand_check ?? null;
    const core = new BenchCore({ ...ready(), stand_check: null, stand_check_today: today });
    await openTest(core);
    await press('Take it over');
    await waitFor(() => expect(core.recorded()).toEqual([{ part: 'stand_check', body: today }]));
  });

  it('leave a blank out only on purpose', async () => {
    const core = new BenchCore(ready({ blank: null }));
    await openTest(core);
    await press('No blank taken');
    await waitFor(() =>
      expect(core.recorded()).toEqual([{ part: 'blank', body: { vacuum_pa: null, as_typed: null } }]),
    );
  });

  it('say what a stand that nobody entered costs, and record it so', async () => {
    const core = new BenchCore();
    await openTest(core);
    await press(/^Stand/);
    await answer(/^A stand that isn’t entered here.*no leak, no clearance, no pressure/);
    await press('Save and go on');
    await waitFor(() => expect(core.recorded()).toEqual([{ part: 'stand', body: { stand: null } }]));
  });
});

describe('readings', () => {
  it('are kept as typed, with the unit they were typed in', async () => {
    const core = new BenchCore(ready());
    await openTest(core);
    await type('Vacuum at the gauge', '20.5');
    await press('Done');
    await press('Save reading 1');
    await screen.findByText('Before reading 2');
    expect(core.recorded()).toEqual([
      {
        part: 'reading',
        body: { vacuum_pa: inHg(20.5), reseated: false, as_typed: '20.5 inHg' },
      },
    ]);
  });

  it('count as repeats only when it was said that everything was seated anew', async () => {
    const core = new BenchCore(ready({ readings: MEASURED.readings.slice(0, 1) }));
    await openTest(core);
    expect(await screen.findByText('Before reading 2')).toBeTruthy();
    expect(button('Save reading 2')).toHaveProperty('disabled', true);
    expect(button(/^Reading 2 of 3 /)).toHaveProperty('disabled', true);
    await answer('Valve turned, plug seated anew');
    await type('Reading 2 of 3', '20.1');
    await press('Done');
    await press('Save reading 2');
    await screen.findByText('Before reading 3');
    expect(core.recorded()).toMatchObject([{ body: { reseated: true, as_typed: '20.1 inHg' } }]);
    // The next one starts over: nothing of the last one is answered for it.
    expect(screen.queryAllByRole('radio', { checked: true })).toEqual([]);
    await answer(/^Neither was done/);
    await type('Reading 3 of 3', '20.0');
    await press('Done');
    await press('Save reading 3');
    await waitFor(() => expect(core.recorded().at(-1)).toMatchObject({ body: { reseated: false } }));
  });

  it('that can’t be right get a finding at the field, are not saved, and stay typed', async () => {
    const core = new BenchCore(ready());
    await openTest(core);
    const pad = await type('Vacuum at the gauge', '400');
    expect(await pad.findByText(/This should lie between 0\.0.inHg and 31\.9.inHg/)).toBeTruthy();
    await press('Done');
    await press('Save reading 1');
    expect(button(/^Vacuum at the gauge 400/)).toBeTruthy();
    expect(core.view.readings).toEqual([]);
    await waitFor(() =>
      expect(core.drafts.get('test:t-1:reading:1')).toMatchObject({ entry: { text: '400' } }),
    );
  });

  it('deeper than the closed hose are refused too', async () => {
    await openTest(new BenchCore(ready()));
    const pad = await type('Vacuum at the gauge', '29.5');
    expect(await pad.findByText(/With its hose closed the stand pulls less/)).toBeTruthy();
  });

  it('half-typed are found again after a restart, in the step where they were left', async () => {
    const core = new BenchCore(ready());
    await openTest(core);
    await type('Vacuum at the gauge', '20.');
    await waitFor(() => expect(core.drafts.get('test:t-1:reading:1')).toBeTruthy());
    cleanup();
    await openTest(core);
    expect(await screen.findByText(/Found what you were typing/)).toBeTruthy();
    expect(button(/^Vacuum at the gauge 20\./)).toBeTruthy();
  });

  it('show what they would give before they are saved, and leave no draft once they are', async () => {
    const core = new BenchCore(ready());
    await openTest(core);
    await type('Vacuum at the gauge', '17.1');
    await screen.findByText(/With what is being typed, not saved yet/);
    expect(core.argsOf('test.record').every(({ dry_run: dryRun }) => dryRun)).toBe(true);
    await press('Done');
    await press('Save reading 1');
    await screen.findByText('Before reading 2');
    expect(core.drafts.has('test:t-1:reading:1')).toBe(false);
    expect(screen.queryByText(/Found what you were typing/)).toBeNull();
  });

  it('offer no value of another reading: a repeat is measured, not copied', async () => {
    const core = new BenchCore(ready());
    await openTest(core);
    const pad = await type('Vacuum at the gauge', '20.5');
    await user.click(pad.getByRole('button', { name: 'Save reading 1' }));
    await answer('Valve turned, plug seated anew');
    await screen.findByRole('dialog', { name: 'Reading 2 of 3' });
    expect(screen.queryByRole('button', { name: /^Last value/ })).toBeNull();
  });

  it('are corrected with the first struck through beside them', async () => {
    const core = new BenchCore(structuredClone(MEASURED));
    await openTest(core);
    await press(/^Readings/);
    await press(/^Reading 2/);
    await press(/^Correct it/);
    await type('Vacuum at the gauge', '18.2');
    await press('Done');
    await press('Save the correction');
    await waitFor(() =>
      expect(core.argsOf('test.correct')).toEqual([
        {
          test: 't-1',
          record: 'r-2',
          reading: { vacuum_pa: inHg(18.2), reseated: true, as_typed: '18.2 inHg' },
        },
      ]),
    );
    const list = within(await screen.findByRole('list', { name: 'Readings of this bore' }));
    expect(await list.findByText(/^was /)).toBeTruthy();
  });

  it('are struck with a way back', async () => {
    const core = new BenchCore(structuredClone(MEASURED));
    await openTest(core);
    await press(/^Readings/);
    await press(/^Reading 3/);
    await press(/^Strike it/);
    expect(await screen.findByText('Struck: reading 3')).toBeTruthy();
    expect(core.argsOf('test.strike')).toEqual([{ test: 't-1', record: 'r-3' }]);
  });
});

describe('the judgement', () => {
  it('is where a finished test opens, and goes on record with a note', async () => {
    const core = new BenchCore(structuredClone(MEASURED));
    await openTest(core);
    await press('Put on record');
    const sheet = within(screen.getByRole('dialog', { name: 'Put on record' }));
    await user.type(sheet.getByLabelText('Your own words, if any'), 'Quote a sleeve.');
    await user.click(sheet.getByRole('button', { name: 'Put on record' }));
    expect(await screen.findByText('Quote a sleeve.')).toBeTruthy();
    expect(core.argsOf('test.decide')).toEqual([{ test: 't-1', note: 'Quote a sleeve.' }]);
  });

  it('can’t be put on record while there is none', async () => {
    await openTest(new BenchCore(untouched()));
    expect(await screen.findByRole('button', { name: 'Put on record' })).toHaveProperty('disabled', true);
  });

  it('keeps a caution in view', async () => {
    await openTest(new BenchCore(ready()));
    expect(await screen.findByRole('button', { name: /CAUTION Vacuum pump/ })).toBeTruthy();
  });
});
