import type { TestView } from '$lib/generated/commands';

/** The steps of a vacuum test, in the order of the work. */
export const STEPS = ['stand', 'air', 'setup', 'check', 'blank', 'readings'] as const;
export type StepId = (typeof STEPS)[number];
/** Where one is within a test. */
export type Place = StepId | 'judgement';
export type StepState = 'open' | 'partly' | 'done';

/** Readings asked for before a test counts as done. */
export const READINGS_ASKED = 3;
/** Calibrated orifices needed to tell the hose from the pump. */
export const ORIFICES_ASKED = 2;

export const isPlace = (text: string): text is Place =>
  text === 'judgement' || (STEPS as readonly string[]).includes(text);

/** How far each step is on record. */
export function stepStates(view: TestView): Record<StepId, StepState> {
  const setup = view.setup ? 'done' : 'open';
  return {
    // The stand was named, or left out on purpose, when the test began.
    stand: 'done',
    air: setup,
    setup,
    check: checkState(view),
    blank: view.blank ? 'done' : 'open',
    readings: readingsState(view.readings.length),
  };
}

function checkState({ stand, stand_check: check }: TestView): StepState {
  if (!check) return 'open';
  // A stand that nobody entered has no calibrated orifice to read.
  if (!stand) return 'done';
  return check.orifices.length >= ORIFICES_ASKED ? 'done' : 'partly';
}

function readingsState(count: number): StepState {
  if (count === 0) return 'open';
  return count < READINGS_ASKED ? 'partly' : 'done';
}

/** Where a test is gone on with: the first step that isn't on record, else what it all says. */
export function placeToStart(view: TestView): Place {
  const states = stepStates(view);
  return STEPS.find((step) => states[step] !== 'done') ?? 'judgement';
}

/** Where to go once a step is on record: the next one that isn't, else one left out before. */
export function placeAfter(step: StepId, view: TestView): Place {
  const states = stepStates(view);
  const later = STEPS.slice(STEPS.indexOf(step) + 1);
  return later.find((other) => states[other] !== 'done') ?? placeToStart(view);
}
