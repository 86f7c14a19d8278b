/** A relief check and a repair of an invented shop, for tests of the interface. */
import type {
  Consequence,
  Finding,
  ReliefAnswer,
  ReliefView,
  RepairView,
  Span,
} from '$lib/generated/commands';
import { toSi } from '$lib/quantity';
import { HAZARDS, JOB, PERSON } from '$lib/app/testing/shop';
import { MEASURED } from '../../test/testing/test-view';

const psi = (value: number) => toSi(value, 'psi');
const about = (likely: number, by: number): Span => ({ low: likely - by, likely, high: likely + by });

/** The pressures of the tested bore, all moved to one feed. */
export function consequenceAt(feed: number, by: number): Consequence {
  const answer = MEASURED.judgement.consequence;
  if (answer?.answer !== 'computed') throw new Error('the test in the fixture predicts something');
  const { answer: _, ...consequence } = structuredClone(answer);
  const span = about(psi(feed), psi(by));
  for (const point of [...consequence.curve, consequence.idle, consequence.highest_line]) {
    point.measured_feed_pa = span;
    point.measured_state = 'regulating';
  }
  return consequence;
}

/** What the core finds in figures: a seat larger than its ball. */
export function seatFindings(figures: ReliefView['figures']): Finding[] {
  const { seat_diameter_m: seat, ball_diameter_m: ball } = figures;
  return typeof seat === 'number' && typeof ball === 'number' && seat >= ball
    ? [{ severity: 'wrong', code: 'seat_larger_than_ball', field: 'seat_diameter_m' }]
    : [];
}

export function reliefAnswer(findings: Finding[] = []): ReliefAnswer {
  return {
    oil_temperature_k: 368.15,
    specified_high_pa: psi(125),
    limit_pa: psi(180),
    regulation_pa: { low: psi(110), likely: psi(119.5), high: psi(120.5) },
    relief:
      findings.length > 0
        ? null
        : {
            cracking_pa: psi(140.7),
            full_open_pa: psi(166),
            full_lift_m: 0.9e-3,
            window: 'inside',
            capacity_at_limit_m3_s: 2.4e-4,
            override_curve: [126, 140.7, 160, 182].map((p, i) => ({
              pressure_pa: psi(p),
              lift_m: i * 2e-4,
              area_m2: i * 2e-6,
              flow_m3_s: i * 8e-5,
            })),
          },
    worst: {
      clearance_from: 'last_test',
      clearance_m: { low: 50e-6, likely: 66e-6, high: 95e-6 },
      line_pa: psi(300),
      feed_without_pa: about(psi(270), psi(5)),
      feed_with_pa: findings.length > 0 ? null : about(psi(146), psi(3)),
      leak_flow_m3_s: findings.length > 0 ? null : about(4e-5, 1e-5),
      lost_flow_m3_s: findings.length > 0 ? null : about(3e-5, 1e-5),
      holds: findings.length > 0 ? null : true,
    },
    findings,
    assumptions: ['solenoids_shut'],
  };
}

export function reliefView(change: Partial<ReliefView> = {}): ReliefView {
  return {
    job: JOB,
    job_number: '0147',
    bore: 'b-1',
    bore_name: 'Solenoid feed regulator',
    circuit_name: 'Solenoid feed',
    in_profile: true,
    figures: {
      presence: 'fitted',
      ball_diameter_m: toSi(0.2, 'in'),
      seat_diameter_m: toSi(0.126, 'in'),
      load_seated_n: 7.8,
      rate_n_per_m: 1800,
      lift_stop_m: 1.2e-3,
    },
    answer: reliefAnswer(),
    hazards: HAZARDS,
    undo: {},
    ...change,
  };
}

/** A sleeve on record, tested since. */
export function repairView(change: Partial<RepairView> = {}): RepairView {
  const begun = { by: PERSON.name, at: '2026-11-24T15:02:00Z' };
  return {
    id: 'r-1',
    job: JOB,
    job_number: '0147',
    bore: 'b-1',
    bore_name: 'Solenoid feed regulator',
    parts_before: {
      bore_diameter_m: toSi(0.3152, 'in'),
      valve_diameter_m: toSi(0.3138, 'in'),
      spring_load_n: 22.4,
      spring_rate_n_per_m: 2600,
      setpoint_pa: psi(65),
    },
    work: {
      option: 'sleeve_smaller_valve',
      parts: 'Sleeve turned in the shop',
      bore_diameter_m: toSi(0.2953, 'in'),
      valve_diameter_m: toSi(0.2941, 'in'),
    },
    by: begun,
    before: {
      test: 't-1',
      begun,
      mean_vacuum_pa: toSi(17.1, 'inHg'),
      consequence: { answer: 'computed', ...consequenceAt(72, 6) },
    },
    forecast: {
      prediction: { answer: 'computed', ...consequenceAt(65.2, 1.4) },
      clearance_m: { low: 27e-6, likely: 30e-6, high: 33e-6 },
      reaction_area_m2: 4.38e-5,
      fitting_load_n: 19.64,
      spring_holds_pa: psi(65),
      findings: [],
      assumptions: [],
    },
    after: {
      test: 't-2',
      begun,
      mean_vacuum_pa: toSi(23.6, 'inHg'),
      consequence: { answer: 'computed', ...consequenceAt(64.9, 0.9) },
    },
    open: ['after_not_decided'],
    test_point: 'tp-1',
    findings: [],
    hazards: HAZARDS,
    undo: {},
    oil_checks: [],
    ...change,
  };
}
