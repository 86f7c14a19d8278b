//! The Monte Carlo band of the regulated pressure beside the one by quadrature, on the demo's two
//! valves.

use diagnosis::judgement::Span;
use diagnosis::pressure::monte_carlo::{FeedBand, SampledValve, Spreads};
use diagnosis::pressure::{SealEvidence, consequence};
use model::unit::BoreProfile;
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

fn sampled(profile: &BoreProfile, um: f64, celsius: f64, spreads: &Spreads) -> SampledValve {
    SampledValve::new(profile, &evidence(um), celsius + 273.15, spreads).unwrap()
}

fn psi(span: Span) -> [f64; 3] {
    [span.low, span.likely, span.high].map(|end| *end / PSI)
}

fn highest(profile: &BoreProfile) -> f64 {
    *profile.unit.line_highest_pa.unwrap()
}

#[test]
fn with_nothing_left_to_know_the_band_closes_on_the_likely_answer() {
    // Off-centre as centred and no spread: all that remains is where the valve lies in service and
    // what the untested seals are. The likely answer of the quadrature lies among them.
    let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
    profile.bore.spool.friction_n = Some(model::Finite::ZERO);
    let mut seals = evidence(60.0);
    seals.off_centre = seals.centred;
    let none = Spreads {
        engaged_length_ratio: 0.0,
        orifice_flow_ratio: 0.0,
        spring_load_ratio: 0.0,
        blank_flow_ratio: 0.0,
        entry_exit_loss: [1.5, 1.5],
    };
    let valve = SampledValve::new(&profile, &seals, 363.15, &none).unwrap();
    let band = valve.feed_band(highest(&profile), 4000).unwrap();
    let (told, _) = consequence(&profile, &seals, 363.15).unwrap();
    let likely = psi(told.highest_line.measured_feed_pa)[1];
    let [low, middle, high] = psi(band.feed_pa);
    // Centred leaks least: the likely answer is near the low end.
    assert!(
        likely > low - 0.3 && likely < middle && middle < high,
        "{likely} {low} {middle} {high}"
    );
}

#[test]
fn both_bands_on_the_worked_cases() {
    let mut wider = 0;
    for (name, um, celsius) in [
        ("Larkmoor L6", 40.0, 90.0),
        ("Larkmoor L6", 60.0, 90.0),
        ("Larkmoor L6", 82.0, 90.0),
        ("Larkmoor L6", 95.0, 90.0),
        ("Larkmoor L6", 82.0, -10.0),
        ("Stonebeck S8", 40.0, 95.0),
        ("Stonebeck S8", 80.0, 95.0),
        ("Stonebeck S8", 110.0, 120.0),
    ] {
        let profile = testkit::demo::profile(name).unwrap();
        let (told, _) = consequence(&profile, &evidence(um), celsius + 273.15).unwrap();
        let quadrature = psi(told.highest_line.measured_feed_pa);
        let band = sampled(&profile, um, celsius, &Spreads::default())
            .feed_band(highest(&profile), 20_000)
            .unwrap();
        let drawn = psi(band.feed_pa);
        println!(
            "{name} {um} um {celsius} C: quadrature {quadrature:.1?}, Monte Carlo {drawn:.1?} \
             (shortest {:.1?}, skew {:.2}, regulates {:.3}, failed {:.3})",
            band.shortest_pa.map(|p| *p / PSI),
            band.skewness.map_or(0.0, |s| *s),
            *band.regulating_share,
            *band.failed_share,
        );
        assert!(drawn[0] <= drawn[1] && drawn[1] <= drawn[2]);
        assert!(
            *band.shortest_pa[1] - *band.shortest_pa[0] <= *band.feed_pa.high - *band.feed_pa.low
        );
        // They overlap, and neither is beside the other altogether.
        assert!(drawn[0] < quadrature[2] && drawn[2] > quadrature[0]);
        wider += u32::from(quadrature[2] - quadrature[0] >= drawn[2] - drawn[0]);
    }
    println!("the quadrature's band is the wider one in {wider} of 8");
}

#[test]
fn the_same_evidence_gives_the_same_band() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let valve = sampled(&profile, 82.0, 90.0, &Spreads::default());
    let again = sampled(&profile, 82.0, 90.0, &Spreads::default());
    let at = |valve: &SampledValve| -> FeedBand { valve.feed_band(1.5e6, 3000).unwrap() };
    assert_eq!(at(&valve), at(&again));
    assert!(valve.feed_band(f64::NAN, 3000).is_err());
    assert!(valve.feed_band(1.5e6, 10).is_err());
}

#[test]
fn in_a_worn_bore_eccentricity_brings_most_of_the_spread() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let shares = sampled(&profile, 82.0, 90.0, &Spreads::default())
        .feed_shares(highest(&profile), 4000)
        .unwrap();
    for share in &shares.shares {
        println!(
            "{}: {:.3} alone, {:.3} in all",
            share.name, share.alone, share.total
        );
    }
    assert!(
        shares.shares[0].name.starts_with("eccentricity"),
        "{:?}",
        shares.shares[0]
    );
    let blank = shares.shares.iter().find(|s| s.name == "blank").unwrap();
    assert_eq!(blank.total, 0.0);
}

#[test]
fn a_blank_known_badly_widens_the_band() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let width = |spreads: &Spreads| {
        let band = sampled(&profile, 82.0, 90.0, spreads).feed_band(highest(&profile), 8000);
        *band.unwrap().deviation_pa
    };
    let plain = Spreads::default();
    assert!(width(&plain.with_blank(0.7)) > 1.02 * width(&plain));
}
