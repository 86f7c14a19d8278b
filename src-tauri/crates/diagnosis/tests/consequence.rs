//! What a leak does to the pressure: laws that must come out, on the demo's two valves.

use diagnosis::judgement::{Consequence, RegulationState, Span, SpecificationAnswer};
use diagnosis::pressure::{SealEvidence, consequence};
use model::Finite;
use model::unit::BoreProfile;
use proptest::prelude::*;
use uom::si::f64::Length;
use uom::si::length::micrometer;

const PSI: f64 = 6_894.757_293_168_361;

fn evidence(diametral_um: f64) -> SealEvidence {
    let radial = |um: f64| Length::new::<micrometer>(um / 2.0);
    // A clearance found centred is larger than one found off-centre by the cube root of 2.5.
    let off = 1.0 / 2.5_f64.cbrt();
    SealEvidence {
        tested_lands: vec!["reaction land".into()],
        centred: [0.97, 1.0, 1.03].map(|share| radial(diametral_um * share)),
        off_centre: [0.97, 1.0, 1.03].map(|share| radial(diametral_um * share * off)),
    }
}

fn predict(profile: &BoreProfile, diametral_um: f64, celsius: f64) -> Consequence {
    consequence(profile, &evidence(diametral_um), celsius + 273.15)
        .unwrap()
        .0
}

fn psi(span: Span) -> [f64; 3] {
    [span.low, span.likely, span.high].map(|end| *end / PSI)
}

#[test]
fn a_quarter_square_inch_and_thirty_pounds_hold_a_hundred_and_twenty_psi() {
    // Common practice, no source: 120 psi on 0.25 in2 needs 30 lbf at the regulating position.
    let profile = testkit::demo::profile("Stonebeck S8").unwrap();
    let new = predict(&profile, 40.0, 95.0).highest_line.new_feed_pa;
    let [low, likely, high] = psi(new);
    assert!((likely - 120.0).abs() < 1.5, "{likely}");
    // Friction of 0.9 N on 1.61e-4 m2 makes a band of 2 x 0.81 psi about it.
    assert!((high - low - 2.0 * 0.81).abs() < 0.2, "{low} {high}");
}

#[test]
fn below_the_setpoint_the_valve_follows_line_and_there_is_no_shift_to_speak_of() {
    let profile = testkit::demo::profile("Stonebeck S8").unwrap();
    let idle = predict(&profile, 80.0, 95.0).idle;
    assert_eq!(idle.new_state, RegulationState::FollowsLine);
    assert_eq!(idle.shift_pa, None);
    assert_eq!(idle.against_specification, None);
}

#[test]
fn the_same_gap_ruins_the_small_orifice_and_spares_the_large_one() {
    // Common practice, no source: about 0.070 in of balance orifice tolerates what 0.040 in or
    // less does not.
    let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let shift =
        |profile: &BoreProfile| psi(predict(profile, 82.0, 90.0).highest_line.shift_pa.unwrap())[1];
    let small = shift(&profile);
    let orifice = profile.balance_orifice.as_mut().unwrap();
    orifice.diameter_m = Finite::new(1.78e-3).unwrap();
    let large = shift(&profile);
    assert!(small > 5.0, "{small}");
    assert!(large < small / 10.0, "{large} against {small}");
}

#[test]
fn cold_oil_hides_the_fault() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let likely = |celsius: f64| {
        psi(predict(&profile, 82.0, celsius)
            .highest_line
            .shift_pa
            .unwrap())[1]
    };
    let (hot, cold) = (likely(90.0), likely(-10.0));
    assert!(cold.abs() < hot / 4.0, "{cold} against {hot}");
}

#[test]
fn a_worn_bore_is_told_to_lie_outside_its_specification() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let good = predict(&profile, 37.0, 90.0).highest_line;
    let worn = predict(&profile, 95.0, 90.0).highest_line;
    assert_ne!(
        good.against_specification,
        Some(SpecificationAnswer::Outside)
    );
    assert!(matches!(
        worn.against_specification,
        Some(SpecificationAnswer::Outside | SpecificationAnswer::LikelyOutside)
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn a_wider_gap_never_shifts_less(um in 36.0..90.0f64, more in 2.0..20.0f64) {
        let profile = testkit::demo::profile("Larkmoor L6").unwrap();
        let at = |um: f64| predict(&profile, um, 90.0).highest_line;
        let (narrow, wide) = (at(um), at(um + more));
        let likely = |point: &diagnosis::judgement::OperatingPoint| {
            *point.measured_feed_pa.likely
        };
        // The leak to the sump raises feed. The untested line-to-sump land drains nothing from it.
        prop_assert!(likely(&wide) >= likely(&narrow) - 1.0, "{narrow:?} {wide:?}");
    }

    #[test]
    fn every_span_is_in_order_and_feed_stays_below_line(um in 20.0..140.0f64, celsius in -20.0..140.0f64) {
        let profile = testkit::demo::profile("Stonebeck S8").unwrap();
        for point in predict(&profile, um, celsius).curve {
            for span in [point.new_feed_pa, point.measured_feed_pa] {
                prop_assert!(span.low <= span.likely && span.likely <= span.high);
                prop_assert!(*span.low >= 0.0 && *span.high <= *point.line_pa * (1.0 + 1e-9) + 1.0);
            }
        }
    }
}

/// Holes or notches get their prediction as a groove does; notches that open all around are one.
#[test]
fn holes_and_notches_are_predicted() {
    use diagnosis::prospect::{Judged, prospect};
    use model::unit::OpeningWindow;
    let finite = |x: f64| Finite::new(x).unwrap();
    let groove = testkit::demo::profile("Stonebeck S8").unwrap();
    let with = |window: OpeningWindow| {
        let mut profile = groove.clone();
        for opening in &mut profile.openings {
            opening.window = Some(window);
        }
        assert!(prospect(&profile, &[]).can.contains(&Judged::Pressure));
        predict(&profile, 80.0, 95.0).highest_line
    };
    let around = std::f64::consts::PI * *groove.bore.diameter_m * (1.0 - 1e-4);
    let mut all_around = groove.clone();
    for opening in &mut all_around.openings {
        opening.circumference_fraction = finite(1.0);
    }
    let all_around = predict(&all_around, 80.0, 95.0).highest_line;
    let notches = with(OpeningWindow::Notches {
        count: 4,
        width_m: finite(around / 4.0),
        length_m: finite(0.01),
    });
    for (cut, whole) in psi(notches.measured_feed_pa)
        .into_iter()
        .zip(psi(all_around.measured_feed_pa))
    {
        assert!((cut - whole).abs() < 0.2, "{cut} {whole}");
    }
    let holes = with(OpeningWindow::RoundHoles {
        count: 4,
        diameter_m: finite(2e-3),
    });
    assert_eq!(holes.new_state, RegulationState::Regulating);
    // Leak from the reaction chamber to sump raises feed, by the same mechanism and to a like
    // extent: the shift is set by the balance orifice, not by the edge.
    let shift = |at: &diagnosis::judgement::OperatingPoint| psi(at.shift_pa.unwrap())[1];
    let (holed, grooved) = (shift(&holes), shift(&all_around));
    assert!(
        holed > 0.0 && (holed / grooved - 1.0).abs() < 0.2,
        "{holed} {grooved}"
    );
}
