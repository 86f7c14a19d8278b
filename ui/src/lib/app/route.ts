import { isPage, type PageId } from '$lib/guide/page';

/** Where one can be in the app. Each place has an address of its own, so that back, reload and a
 * link all work. */
export type Route =
  | { readonly at: 'jobs' }
  | { readonly at: 'job_new' }
  | { readonly at: 'job'; readonly job: string }
  | { readonly at: 'job_edit'; readonly job: string; readonly part: EditablePart }
  | { readonly at: 'erase'; readonly job: string }
  | { readonly at: 'bore_history'; readonly bore: string; readonly job?: string }
  /** Without a job: the valve as its profile has it. */
  | { readonly at: 'explore'; readonly bore: string; readonly job?: string }
  | { readonly at: 'cautions'; readonly job: string }
  | {
      readonly at: 'begin';
      readonly job: string;
      readonly bore?: string;
      readonly testPoint?: string;
    }
  | { readonly at: 'plan'; readonly job: string }
  | { readonly at: 'bore'; readonly job: string; readonly bore: string }
  | {
      readonly at: 'check';
      readonly job: string;
      readonly check: string;
      /** Absent: a check of the body or the case. */
      readonly bore?: string;
      /** The one that is corrected; absent: a new one. */
      readonly inspection?: string;
    }
  | { readonly at: 'instruments' }
  | { readonly at: 'parts' }
  /** `new`, or its subject. */
  | { readonly at: 'shop_part'; readonly part: string }
  | { readonly at: 'options'; readonly job: string; readonly bore: string }
  | { readonly at: 'machining'; readonly job: string; readonly bore: string }
  | { readonly at: 'instrument'; readonly instrument: string }
  /** `new`, or its subject. */
  | { readonly at: 'stand'; readonly stand: string }
  | { readonly at: 'leave_out'; readonly job: string; readonly bore: string }
  | { readonly at: 'relief'; readonly job: string; readonly bore: string }
  | { readonly at: 'repair'; readonly job: string; readonly bore: string; readonly repair: string }
  | {
      readonly at: 'repair_form';
      readonly job: string;
      readonly bore: string;
      /** Absent: a new one. */
      readonly repair?: string;
    }
  | { readonly at: 'taps'; readonly job: string }
  | { readonly at: 'tap_reading'; readonly job: string; readonly tap: string }
  | {
      readonly at: 'oil_check';
      readonly job: string;
      readonly bore: string;
      /** Absent: a new one. */
      readonly check?: string;
    }
  | { readonly at: 'test'; readonly test: string }
  | { readonly at: 'history'; readonly of: 'job' | 'test'; readonly subject: string }
  | { readonly at: 'units' }
  | { readonly at: 'unit'; readonly unit: string }
  | { readonly at: 'unit_new' }
  | { readonly at: 'unit_edit'; readonly unit: string }
  | {
      readonly at: 'unit_part';
      readonly unit: string;
      readonly part: ProfilePartName;
      /** The part; a new one names what it belongs to instead. */
      readonly target: string;
    }
  | { readonly at: 'settings' }
  | { readonly at: 'devices' }
  | { readonly at: 'settle' }
  | { readonly at: 'pass_on'; readonly job?: string; readonly unit?: string }
  | { readonly at: 'report'; readonly job: string }
  | { readonly at: 'take_in' }
  /** A file that is only looked at, and what is in it. The file is the core's handle. */
  | { readonly at: 'look'; readonly looked: string }
  | { readonly at: 'look_job'; readonly looked: string; readonly inside: string }
  | { readonly at: 'look_test'; readonly looked: string; readonly inside: string }
  | {
      readonly at: 'look_repair';
      readonly looked: string;
      readonly ofJob: string;
      readonly ofBore: string;
      readonly inside: string;
    }
  | {
      readonly at: 'look_part';
      readonly looked: string;
      readonly part: LookedPart;
      readonly ofJob: string;
      /** Of a part that belongs to a bore: the bore; of a test’s history: the test. */
      readonly of?: string;
      /** Of a hot-oil check: the check. */
      readonly inside?: string;
    }
  | { readonly at: 'readings_out'; readonly job?: string }
  | { readonly at: 'readings_in'; readonly job?: string }
  /** Without a page: all of them, to be searched. */
  | { readonly at: 'guide'; readonly page?: PageId }
  | { readonly at: 'handover'; readonly job: string }
  | {
      readonly at: 'handover_form';
      readonly job: string;
      readonly part: HandoverPart;
      /** A fitted part on record; absent: a new one. */
      readonly fitted?: string;
    }
  | { readonly at: 'statistics' }
  | { readonly at: 'nowhere' };

/** What a job of a file that is looked at has beside its tests and repairs. */
export const LOOKED_PARTS = [
  'plan',
  'bore',
  'relief',
  'taps',
  'oil-check',
  'handover',
  'history',
] as const;
export type LookedPart = (typeof LOOKED_PARTS)[number];

const isLookedPart = (text: string | undefined): text is LookedPart =>
  (LOOKED_PARTS as readonly (string | undefined)[]).includes(text);

export const EDITABLE_PARTS = ['vehicle', 'complaint', 'notes', 'customer'] as const;
export type EditablePart = (typeof EDITABLE_PARTS)[number];

/** What is agreed in a job, each with a form of its own. */
export const HANDOVER_PARTS = [
  'estimate',
  'authorisation',
  'fitted',
  'warranty',
  'sign_off',
  'comeback',
] as const;
export type HandoverPart = (typeof HANDOVER_PARTS)[number];

const isHandoverPart = (text: string | undefined): text is HandoverPart =>
  (HANDOVER_PARTS as readonly (string | undefined)[]).includes(text);

/** The parts of a unit's profile, each with a form of its own. */
export const PROFILE_PARTS = [
  'unit',
  'circuit',
  'tap',
  'clutch',
  'relief',
  'shape',
  'bore',
  'ports',
  'land',
  'opening',
  'spring',
  'balance_orifice',
  'test_point',
] as const;
export type ProfilePartName = (typeof PROFILE_PARTS)[number];

const isProfilePart = (text: string | undefined): text is ProfilePartName =>
  (PROFILE_PARTS as readonly (string | undefined)[]).includes(text);

const isPart = (text: string | undefined): text is EditablePart =>
  (EDITABLE_PARTS as readonly (string | undefined)[]).includes(text);

/** The route of an address's fragment. An address that leads nowhere says so, it doesn't guess. */
export function readRoute(fragment: string): Route {
  let parts: string[];
  try {
    parts = fragment
      .replace(/^#?\/?/, '')
      .split('/')
      .filter((part) => part !== '')
      .map(decodeURIComponent);
  } catch {
    return { at: 'nowhere' };
  }
  const [first, id, third, fourth, fifth, sixth, more] = parts;
  if (more !== undefined) return { at: 'nowhere' };
  if (sixth !== undefined && third !== 'check' && first !== 'look') return { at: 'nowhere' };
  if (first === undefined) return { at: 'jobs' };
  if (id === undefined) {
    if (first === 'jobs' || first === 'units' || first === 'settings') return { at: first };
    if (first === 'guide') return { at: 'guide' };
    if (first === 'devices' || first === 'settle' || first === 'instruments') return { at: first };
    if (first === 'parts') return { at: 'parts' };
    if (first === 'statistics') return { at: 'statistics' };
    if (first === 'pass-on') return { at: 'pass_on' };
    if (first === 'take-in') return { at: 'take_in' };
    if (first === 'readings-out') return { at: 'readings_out' };
    if (first === 'readings-in') return { at: 'readings_in' };
    return { at: 'nowhere' };
  }
  if (first === 'jobs' && id === 'new' && third === undefined) return { at: 'job_new' };
  if (first === 'guide' && third === undefined && isPage(id)) return { at: 'guide', page: id };
  if (first === 'part' && third === undefined) return { at: 'shop_part', part: id };
  if (first === 'instrument' && third === undefined) return { at: 'instrument', instrument: id };
  if (first === 'stand' && third === undefined) return { at: 'stand', stand: id };
  if (first === 'units' && id === 'new' && third === undefined) return { at: 'unit_new' };
  if (first === 'unit') {
    if (third === undefined) return { at: 'unit', unit: id };
    if (third === 'edit' && fourth === undefined) return { at: 'unit_edit', unit: id };
    if (third === 'pass-on' && fourth === undefined) return { at: 'pass_on', unit: id };
    if (third === 'part' && isProfilePart(fourth) && fifth !== undefined) {
      return { at: 'unit_part', unit: id, part: fourth, target: fifth };
    }
  }
  if (first === 'look') {
    if (third === undefined) return { at: 'look', looked: id };
    if (third === 'job' && fourth !== undefined && fifth === undefined) {
      return { at: 'look_job', looked: id, inside: fourth };
    }
    if (third === 'test' && fourth !== undefined && fifth === undefined) {
      return { at: 'look_test', looked: id, inside: fourth };
    }
    if (third === 'repair' && fourth !== undefined && fifth !== undefined && sixth !== undefined) {
      return { at: 'look_repair', looked: id, ofJob: fourth, ofBore: fifth, inside: sixth };
    }
    if (isLookedPart(third) && fourth !== undefined) {
      return {
        at: 'look_part',
        looked: id,
        part: third,
        ofJob: fourth,
        ...(fifth === undefined ? {} : { of: fifth }),
        ...(sixth === undefined ? {} : { inside: sixth }),
      };
    }
  }
  if (first === 'bore' && third === 'history' && fourth === undefined) {
    return { at: 'bore_history', bore: id };
  }
  if (first === 'bore' && third === 'explore' && fourth === undefined) {
    return { at: 'explore', bore: id };
  }
  if (first === 'test') {
    if (third === undefined) return { at: 'test', test: id };
    if (third === 'history' && fourth === undefined) return { at: 'history', of: 'test', subject: id };
  }
  if (first === 'job') {
    if (third === undefined) return { at: 'job', job: id };
    if (third === 'begin') {
      if (fourth === undefined) return { at: 'begin', job: id };
      if (fifth !== undefined) return { at: 'begin', job: id, bore: fourth, testPoint: fifth };
    }
    if (third === 'bore' && fourth !== undefined && fifth === undefined) {
      return { at: 'bore', job: id, bore: fourth };
    }
    if (third === 'check' && fourth !== undefined) {
      // The bore's place holds a dash for a check of the body.
      return {
        at: 'check',
        job: id,
        check: fourth,
        ...(fifth === undefined || fifth === '-' ? {} : { bore: fifth }),
        ...(sixth === undefined ? {} : { inspection: sixth }),
      };
    }
    if (third === 'leave-out' && fourth !== undefined && fifth === undefined) {
      return { at: 'leave_out', job: id, bore: fourth };
    }
    if (third === 'plan' && fourth === undefined) return { at: 'plan', job: id };
    if (third === 'machining' && fourth !== undefined && fifth === undefined) {
      return { at: 'machining', job: id, bore: fourth };
    }
    if (third === 'taps' && fifth === undefined) {
      return fourth === undefined
        ? { at: 'taps', job: id }
        : { at: 'tap_reading', job: id, tap: fourth };
    }
    if (third === 'oil-check' && fourth !== undefined) {
      return fifth === undefined
        ? { at: 'oil_check', job: id, bore: fourth }
        : { at: 'oil_check', job: id, bore: fourth, check: fifth };
    }
    if (third === 'options' && fourth !== undefined && fifth === undefined) {
      return { at: 'options', job: id, bore: fourth };
    }
    if (third === 'relief' && fourth !== undefined && fifth === undefined) {
      return { at: 'relief', job: id, bore: fourth };
    }
    if (third === 'bore-history' && fourth !== undefined && fifth === undefined) {
      return { at: 'bore_history', job: id, bore: fourth };
    }
    if (third === 'explore' && fourth !== undefined && fifth === undefined) {
      return { at: 'explore', job: id, bore: fourth };
    }
    if (third === 'repair' && fourth !== undefined && fifth !== undefined) {
      return { at: 'repair', job: id, bore: fourth, repair: fifth };
    }
    if (third === 'repair-form' && fourth !== undefined) {
      return fifth === undefined
        ? { at: 'repair_form', job: id, bore: fourth }
        : { at: 'repair_form', job: id, bore: fourth, repair: fifth };
    }
    if (third === 'edit' && isPart(fourth) && fifth === undefined) {
      return { at: 'job_edit', job: id, part: fourth };
    }
    if (third === 'handover') {
      if (fourth === undefined) return { at: 'handover', job: id };
      if (isHandoverPart(fourth) && sixth === undefined) {
        return fifth === undefined
          ? { at: 'handover_form', job: id, part: fourth }
          : { at: 'handover_form', job: id, part: fourth, fitted: fifth };
      }
    }
    if (fourth === undefined && third === 'erase') return { at: 'erase', job: id };
    if (fourth === undefined && third === 'cautions') return { at: 'cautions', job: id };
    if (fourth === undefined && third === 'report') return { at: 'report', job: id };
    if (fourth === undefined && third === 'pass-on') return { at: 'pass_on', job: id };
    if (fourth === undefined && third === 'readings-out') return { at: 'readings_out', job: id };
    if (fourth === undefined && third === 'readings-in') return { at: 'readings_in', job: id };
    if (fourth === undefined && third === 'history') {
      return { at: 'history', of: 'job', subject: id };
    }
  }
  return { at: 'nowhere' };
}

const address = (...parts: string[]) => `#/${parts.map(encodeURIComponent).join('/')}`;

/** The address of a route, ready for a link. */
export function href(route: Route): string {
  switch (route.at) {
    case 'jobs':
    case 'units':
    case 'settings':
    case 'devices':
    case 'settle':
    case 'instruments':
    case 'parts':
    case 'statistics':
      return address(route.at);
    case 'handover':
      return address('job', route.job, 'handover');
    case 'handover_form':
      return address(
        'job',
        route.job,
        'handover',
        route.part,
        ...(route.fitted === undefined ? [] : [route.fitted]),
      );
    case 'job_new':
      return address('jobs', 'new');
    case 'job':
      return address('job', route.job);
    case 'job_edit':
      return address('job', route.job, 'edit', route.part);
    case 'erase':
      return address('job', route.job, 'erase');
    case 'bore_history':
      return route.job === undefined
        ? address('bore', route.bore, 'history')
        : address('job', route.job, 'bore-history', route.bore);
    case 'explore':
      return route.job === undefined
        ? address('bore', route.bore, 'explore')
        : address('job', route.job, 'explore', route.bore);
    case 'cautions':
      return address('job', route.job, 'cautions');
    case 'begin':
      return route.bore !== undefined && route.testPoint !== undefined
        ? address('job', route.job, 'begin', route.bore, route.testPoint)
        : address('job', route.job, 'begin');
    case 'plan':
      return address('job', route.job, 'plan');
    case 'bore':
      return address('job', route.job, 'bore', route.bore);
    case 'check':
      return address(
        'job',
        route.job,
        'check',
        route.check,
        route.bore ?? '-',
        ...(route.inspection === undefined ? [] : [route.inspection]),
      );
    case 'instrument':
      return address('instrument', route.instrument);
    case 'stand':
      return address('stand', route.stand);
    case 'leave_out':
      return address('job', route.job, 'leave-out', route.bore);
    case 'shop_part':
      return address('part', route.part);
    case 'machining':
      return address('job', route.job, 'machining', route.bore);
    case 'options':
      return address('job', route.job, 'options', route.bore);
    case 'relief':
      return address('job', route.job, 'relief', route.bore);
    case 'repair':
      return address('job', route.job, 'repair', route.bore, route.repair);
    case 'repair_form':
      return address(
        'job',
        route.job,
        'repair-form',
        route.bore,
        ...(route.repair === undefined ? [] : [route.repair]),
      );
    case 'taps':
      return address('job', route.job, 'taps');
    case 'tap_reading':
      return address('job', route.job, 'taps', route.tap);
    case 'oil_check':
      return address(
        'job',
        route.job,
        'oil-check',
        route.bore,
        ...(route.check === undefined ? [] : [route.check]),
      );
    case 'test':
      return address('test', route.test);
    case 'history':
      return address(route.of, route.subject, 'history');
    case 'pass_on':
      if (route.unit !== undefined) return address('unit', route.unit, 'pass-on');
      return route.job === undefined ? address('pass-on') : address('job', route.job, 'pass-on');
    case 'readings_out':
      return route.job === undefined ? address('readings-out') : address('job', route.job, 'readings-out');
    case 'readings_in':
      return route.job === undefined ? address('readings-in') : address('job', route.job, 'readings-in');
    case 'report':
      return address('job', route.job, 'report');
    case 'guide':
      return route.page === undefined ? address('guide') : address('guide', route.page);
    case 'take_in':
      return address('take-in');
    case 'look':
      return address('look', route.looked);
    case 'look_job':
      return address('look', route.looked, 'job', route.inside);
    case 'look_test':
      return address('look', route.looked, 'test', route.inside);
    case 'look_repair':
      return address('look', route.looked, 'repair', route.ofJob, route.ofBore, route.inside);
    case 'look_part':
      return address(
        'look',
        route.looked,
        route.part,
        route.ofJob,
        ...(route.of === undefined ? [] : [route.of]),
        ...(route.inside === undefined ? [] : [route.inside]),
      );
    case 'unit':
      return address('unit', route.unit);
    case 'unit_new':
      return address('units', 'new');
    case 'unit_edit':
      return address('unit', route.unit, 'edit');
    case 'unit_part':
      return address('unit', route.unit, 'part', route.part, route.target);
    case 'nowhere':
      return address('jobs');
  }
}
