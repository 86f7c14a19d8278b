//! The regulator that a profile describes.

use diagnosis::valve::{BENCH_TEMPERATURE_K, Gap, SealState, Wear, regulator, seals};
use model::Finite;
use uom::si::f64::Ratio;
use uom::si::length::meter;
use uom::si::ratio::ratio;

#[test]
fn as_new_each_land_has_its_own_clearance() {
    let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
    for (i, land) in profile.lands.iter_mut().enumerate() {
        let smaller = *land.diameter_m.unwrap() - 1.0e-5 * f64::from(u32::try_from(i).unwrap());
        land.diameter_m = Finite::new(smaller);
    }
    let new = SealState {
        gap: Gap::AsNew,
        eccentricity: Ratio::new::<ratio>(0.0),
    };
    let wear = Wear {
        tested_lands: &[],
        tested: new,
        untested: new,
    };
    let built = regulator(&profile, &wear, BENCH_TEMPERATURE_K).unwrap();
    let mut found = 0;
    for ((land, _), leak) in seals(&profile).zip(&built.leaks) {
        let expected = (*profile.bore.diameter_m - *land.diameter_m.unwrap()) / 2.0;
        let told = leak.annulus.radial_clearance().get::<meter>();
        assert!((told - expected).abs() < 1e-12, "{}: {told}", land.name);
        found += 1;
    }
    assert_eq!(found, built.leaks.len());
    assert!(found >= 3);
}
