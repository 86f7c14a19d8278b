/** Every answer of the core about a machining sheet, in words. Total: a new one breaks the build. */
import type {
  FitAnswer,
  MachinedSize,
  MachiningStep,
  MachiningWay,
  SeatFit,
} from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';

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

export const STEPS = {
  measure_start: {
    label: 'machining.step.measure_start',
    note: 'machining.step.measure_start_note',
  },
  guide_and_pilot: {
    label: 'machining.step.guide_and_pilot',
    note: 'machining.step.guide_and_pilot_note',
  },
  clamp: {
    label: 'machining.step.clamp',
    note: 'machining.step.clamp_note',
  },
  rough: {
    label: 'machining.step.rough',
    note: 'machining.step.rough_note',
  },
  finish: {
    label: 'machining.step.finish',
    note: 'machining.step.finish_note',
  },
  measure_finished: {
    label: 'machining.step.measure_finished',
    note: 'machining.step.measure_finished_note',
  },
  deburr: {
    label: 'machining.step.deburr',
    note: 'machining.step.deburr_note',
  },
  clean_after: {
    label: 'machining.step.clean_after',
    note: 'machining.step.clean_after_note',
  },
  measure_sleeve: {
    label: 'machining.step.measure_sleeve',
    note: 'machining.step.measure_sleeve_note',
  },
  fit_sleeve: {
    label: 'machining.step.fit_sleeve',
    note: 'machining.step.fit_sleeve_note',
  },
  align_ports: {
    label: 'machining.step.align_ports',
    note: 'machining.step.align_ports_note',
  },
  sealing_face: {
    label: 'machining.step.sealing_face',
    note: 'machining.step.sealing_face_note',
  },
  measure_in_place: {
    label: 'machining.step.measure_in_place',
    note: 'machining.step.measure_in_place_note',
  },
  measure_valve: {
    label: 'machining.step.measure_valve',
    note: 'machining.step.measure_valve_note',
  },
  free_movement: {
    label: 'machining.step.free_movement',
    note: 'machining.step.free_movement_note',
  },
  plug_and_clip: {
    label: 'machining.step.plug_and_clip',
    note: 'machining.step.plug_and_clip_note',
  },
  bolt_down: {
    label: 'machining.step.bolt_down',
    note: 'machining.step.bolt_down_note',
  },
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

/** What is measured, after which cut where it is one of the sheet's (from 0). */
export const sizeName = (size: MachinedSize, cut?: number): string =>
  size === 'after_cut' && cut !== undefined
    ? t('machining.after_cut', { number: cut + 1 })
    : t(SIZES[size]);
