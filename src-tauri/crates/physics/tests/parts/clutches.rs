//! Clutch packs and bands.

use physics::clutch::{Annulus, ClutchPack, TurningOil, band_torque, force_by_uniform_wear};
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::angular_velocity::radian_per_second;
use uom::si::f64::{Angle, AngularVelocity};
use uom::si::force::newton;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::torque::newton_meter;

use crate::points::{Point, close, density, m, n, one, pa, points};

fn ring(inner: f64, outer: f64) -> Annulus {
    Annulus {
        inner: m(inner),
        outer: m(outer),
    }
}

/// A pack with the point's faces and a piston of 0.01 m2.
fn pack(p: &Point) -> ClutchPack {
    ClutchPack {
        piston: ring(0.0, (0.01 / std::f64::consts::PI).sqrt()),
        face: ring(p.input("ri"), p.input("ro")),
        faces: p.input("N") as u32,
        friction: one(p.input("mu")),
        return_spring: n(0.0),
    }
}

/// Both torques of a pack closed with `force`.
fn torques(pack: &ClutchPack, force: f64) -> (f64, f64) {
    let there = pack.capacity(pa(force / 0.01), None).unwrap();
    close("force", there.apply_force.get::<newton>(), force, 1e-12);
    (
        there.uniform_wear.get::<newton_meter>(),
        there.uniform_pressure.get::<newton_meter>(),
    )
}

#[test]
fn torque_by_both_laws_is_shigleys_and_bhandaris() {
    for p in points("k_clutch", "k.torque_uniform_wear", 2) {
        p.holds(torques(&pack(&p), p.input("F")).0);
    }
    for p in points("k_clutch", "k.torque_uniform_pressure", 2) {
        p.holds(torques(&pack(&p), p.input("F")).1);
    }
    for p in points("k_clutch", "k.force_uniform_wear", 1) {
        let face = ring(p.input("ri"), p.input("ro"));
        let force = force_by_uniform_wear(face, pa(p.input("p_max"))).unwrap();
        p.holds(force.get::<newton>());
    }
    for id in ["k.book.bhandari_11_1", "k.book.bhandari_11_8"] {
        for p in points("k_clutch", id, 1) {
            let face = ring(p.input("ri"), p.input("ro"));
            let force = force_by_uniform_wear(face, pa(p.input("p_max"))).unwrap();
            p.holds(torques(&pack(&p), force.get::<newton>()).0);
        }
    }
    for p in points("k_clutch", "k.book.bhandari_11_2", 1) {
        let area = std::f64::consts::PI * (p.input("ro").powi(2) - p.input("ri").powi(2));
        p.holds(torques(&pack(&p), p.input("p") * area).1);
    }
}

#[test]
fn a_hydraulic_pack_holds_what_its_piston_gives() {
    for p in points("k_clutch", "k.pack_torque", 1) {
        let pack = ClutchPack {
            piston: ring(0.5 * p.input("D_i"), 0.5 * p.input("D_o")),
            return_spring: n(p.input("F_return")),
            ..pack(&p)
        };
        let there = pack.capacity(pa(p.input("p")), None).unwrap();
        p.holds(there.uniform_pressure.get::<newton_meter>());
    }
}

#[test]
fn a_band_wraps_by_euler() {
    for p in points("k_clutch", "k.band_torque", 2) {
        let torque = band_torque(
            n(p.input("T1")),
            one(p.input("mu")),
            Angle::new::<radian>(p.input("wrap")),
            m(p.input("r")),
        )
        .unwrap();
        p.holds(torque.get::<newton_meter>());
    }
}

fn turning(speed: f64, from: f64, balance: Option<(Annulus, uom::si::f64::Length)>) -> TurningOil {
    TurningOil {
        speed: AngularVelocity::new::<radian_per_second>(speed),
        density: density(820.0),
        from_radius: m(from),
        balance,
    }
}

const PACK: fn() -> ClutchPack = || ClutchPack {
    piston: ring(0.03, 0.06),
    face: ring(0.05, 0.07),
    faces: 8,
    friction: one(0.12),
    return_spring: n(600.0),
};

/// The head against a sum over a thousand thin rings.
#[test]
fn turning_oil_presses_as_its_paraboloid_does() {
    let (w, r0) = (600.0_f64, 0.02);
    let there = PACK()
        .capacity(pa(0.0), Some(&turning(w, r0, None)))
        .unwrap();
    let step = 0.03 / 1000.0;
    let sum: f64 = (0..1000)
        .map(|i| 0.03 + (f64::from(i) + 0.5) * step)
        .map(|r| std::f64::consts::TAU * r * step * 820.0 * w * w / 2.0 * (r * r - r0 * r0))
        .sum();
    close("head", there.centrifugal_force.get::<newton>(), sum, 1e-6);
    let balanced = turning(w, r0, Some((ring(0.03, 0.06), m(r0))));
    let there = PACK().capacity(pa(0.0), Some(&balanced)).unwrap();
    assert!(there.centrifugal_force.get::<newton>().abs() < 1e-9);
}

/// A feed that is 40 kPa low at 400 kPa costs more than a tenth of the torque: the spring takes its
/// load off first.
#[test]
fn a_lost_pressure_costs_more_than_its_share() {
    let shift = PACK().shift(pa(4e5), pa(-4e4), None).unwrap();
    let fraction = shift.fraction.unwrap().get::<ratio>();
    assert!((-0.2..-0.1).contains(&fraction), "{fraction}");
    let torque = shift.before.uniform_wear;
    let needed = PACK().pressure_for(torque, None).unwrap();
    close("pressure", needed.get::<pascal>(), 4e5, 1e-12);
    // Held open by its spring: nothing to lose, and no fraction of nothing.
    let open = PACK().shift(pa(1e4), pa(-5e3), None).unwrap();
    assert_eq!(open.fraction, None);
    assert_eq!(open.torque.get::<newton_meter>(), 0.0);
}

proptest! {
    #[test]
    fn torque_rises_with_pressure_and_wear_is_the_lower_law(
        p in 0.0..2e6f64, dp in 1.0..1e6f64, w in -900.0..900.0f64, ri in 0.0..0.06f64,
    ) {
        let pack = ClutchPack { face: ring(ri, 0.07), ..PACK() };
        let oil = turning(w, 0.02, None);
        let at = |p: f64| pack.capacity(pa(p), Some(&oil)).unwrap();
        let (low, high) = (at(p), at(p + dp));
        prop_assert!(high.uniform_wear >= low.uniform_wear);
        prop_assert!(low.uniform_wear <= low.uniform_pressure * (1.0 + 1e-12));
        // The two laws part by a third at most, for a full disc.
        prop_assert!(low.uniform_pressure <= low.uniform_wear * (4.0 / 3.0 + 1e-9));
    }
}
