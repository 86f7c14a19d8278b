/** Every answer of the core about a machining sheet, in words. Total: a new one breaks the build. */
import type {
  FitAnswer,
  MachinedSize,
  MachiningStep,
  MachiningWay,
  SeatFit,
} from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

export const MACHINING_WAYS = {
  ream: 'machining.way.ream',
  sleeve: 'machining.way.sleeve',
} as const satisfies Record<MachiningWay, PlainKey>;

export const SEATS = {
  slip: 'machining.seat.slip',
  press: 'machining.seat.press',
} as const satisfies Record<SeatFit, PlainKey>;

export const FITS = {
  clearance: 'machining.fit.clearance',
  transition: 'machining.fit.transition',
  interference: 'machining.fit.interference',
} as const satisfies Record<FitAnswer, PlainKey>;

const step = <Step extends MachiningStep>(name: Step) =>
  ({ label: `machining.step.${name}`, note: `machining.step.${name}_note` }) as const;

export const STEPS = {
  measure_start: step('measure_start'),
  guide_and_pilot: step('guide_and_pilot'),
  clamp: step('clamp'),
  rough: step('rough'),
  finish: step('finish'),
  measure_finished: step('measure_finished'),
  deburr: step('deburr'),
  clean_after: step('clean_after'),
  measure_sleeve: step('measure_sleeve'),
  fit_sleeve: step('fit_sleeve'),
  align_ports: step('align_ports'),
  sealing_face: step('sealing_face'),
  measure_in_place: step('measure_in_place'),
  measure_valve: step('measure_valve'),
  free_movement: step('free_movement'),
  plug_and_clip: step('plug_and_clip'),
  bolt_down: step('bolt_down'),
} as const satisfies Record<MachiningStep, { label: PlainKey; note: PlainKey }>;

export const SIZES = {
  start_bore: 'machining.size.start_bore',
  unworn_bore: 'machining.size.unworn_bore',
  after_cut: 'machining.size.after_cut',
  finished_bore: 'machining.size.finished_bore',
  depth: 'machining.size.depth',
  sleeve_outer: 'machining.size.sleeve_outer',
  port_offset: 'machining.size.port_offset',
  sleeve_inner: 'machining.size.sleeve_inner',
  valve: 'machining.size.valve',
} as const satisfies Record<MachinedSize, PlainKey>;
