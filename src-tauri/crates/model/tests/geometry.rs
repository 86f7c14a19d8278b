//! Geometry of the demo's profiles, against numbers worked out by hand from the drawing.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use model::geometry::{engaged_length, opening_at, opening_sense, regulating_stroke};
use model::limits::Check;
use model::unit::{BoreProfile, Edge, OpeningRole};
use model::{Finite, Severity};

fn larkmoor() -> BoreProfile {
    testkit::demo::profile("Larkmoor L6").unwrap()
}

fn near(value: f64, expected: f64) {
    assert!(
        (value - expected).abs() < 1e-12,
        "{value} is not {expected}"
    );
}

#[test]
fn the_supply_is_two_millimetres_open_at_rest_and_shut_where_it_regulates() {
    let profile = larkmoor();
    let supply = profile.opening(OpeningRole::Supply).unwrap();
    // Land's left face 26 mm, port's left edge 24 mm.
    near(opening_at(&profile, supply, 0.0).unwrap(), 2.0e-3);
    near(regulating_stroke(&profile).unwrap(), 2.0e-3);
    near(opening_at(&profile, supply, 2.0e-3).unwrap(), 0.0);
    assert!(opening_sense(&profile, supply) < 0.0);
}

#[test]
fn the_exhaust_overlaps_by_two_tenths_where_it_regulates_and_opens_beyond() {
    let profile = larkmoor();
    let exhaust = profile.opening(OpeningRole::Exhaust).unwrap();
    // Port's right edge 17.8 mm, land's right face 20 mm less 2 mm of stroke.
    near(opening_at(&profile, exhaust, 2.0e-3).unwrap(), -0.2e-3);
    assert!(opening_sense(&profile, exhaust) > 0.0);
}

#[test]
fn the_reaction_land_seals_six_millimetres_at_rest_and_four_where_it_regulates() {
    let profile = larkmoor();
    let land = profile.reaction_land().unwrap();
    // From the vent's right edge, 37.5 mm, to the land's right face, 43.5 mm at rest.
    near(engaged_length(&profile, land, &land.seals[0], 0.0), 6.0e-3);
    near(
        engaged_length(&profile, land, &land.seals[0], 2.0e-3),
        4.0e-3,
    );
}

#[test]
fn the_mirrored_unit_works_the_same_way_round() {
    let profile = testkit::demo::profile("Stonebeck S8").unwrap();
    near(regulating_stroke(&profile).unwrap(), 2.5e-3);
    let land = profile.reaction_land().unwrap();
    assert_eq!(land.name, "reaction land");
    near(
        engaged_length(&profile, land, &land.seals[0], 2.5e-3),
        4.0e-3,
    );
    assert_eq!(profile.findings(), []);
}

#[test]
fn an_opening_the_wrong_way_round_is_found() {
    let mut profile = larkmoor();
    profile.openings[0].edge = match profile.openings[0].edge {
        Edge::Left => Edge::Right,
        Edge::Right => Edge::Left,
    };
    let found = profile.findings();
    assert!(found.iter().any(|finding| {
        finding.code == model::finding::FindingCode::OpeningReversed
            && finding.field == "openings[0].edge"
    }));
}

#[test]
fn a_land_wider_than_its_bore_contradicts_it() {
    let mut profile = larkmoor();
    profile.lands[2].diameter_m = Finite::new(8.1e-3);
    let found = profile.findings();
    let wrong = found
        .iter()
        .find(|finding| finding.severity == Severity::Wrong)
        .unwrap();
    assert_eq!(wrong.field, "lands[2].diameter_m");
}

#[test]
fn a_profile_without_its_spring_says_what_that_costs() {
    let mut profile = larkmoor();
    profile.spring = None;
    let found = profile.findings();
    assert!(found.iter().any(|finding| {
        finding.code == model::finding::FindingCode::ProfileIncomplete && finding.field == "spring"
    }));
}

#[test]
fn two_profiles_with_one_digest_are_one_profile() {
    let profile = larkmoor();
    let mut other = profile.clone();
    assert_eq!(profile.digest(), other.digest());
    other.spring.as_mut().unwrap().load_regulating_n = Finite::new(22.5);
    assert_ne!(profile.digest(), other.digest());
}
