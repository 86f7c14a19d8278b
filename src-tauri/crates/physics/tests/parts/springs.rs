//! Springs from their dimensions and from measured loads.

use physics::Assumption;
use physics::PhysicsError;
use physics::spring::Spring;
use physics::spring::geometry::{Ends, Mounting, SpringGeometry};
use physics::spring::measured::{LoadReading, fit};
use physics::spring::rerate::{pressure_with_shim, shim_for_pressure, spring_for_new_area};
use proptest::prelude::*;
use uom::si::area::square_meter;
use uom::si::f64::Area;
use uom::si::force::newton;
use uom::si::frequency::hertz;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use crate::points::{Point, close, density, m, n, one, pa, points, rate};

fn geometry(d: f64, coil: f64, active: f64, g: f64) -> SpringGeometry {
    SpringGeometry {
        wire: m(d),
        mean_diameter: m(coil),
        active_coils: one(active),
        free_height: m((active + 4.0) * d + 0.04),
        ends: Ends::ClosedGround,
        shear_modulus: pa(g),
        young_modulus: pa(2.07e11),
        density: density(7850.0),
    }
}

fn of(p: &Point) -> SpringGeometry {
    geometry(p.input("d"), p.input("D"), p.input("Na"), p.input("G"))
}

#[test]
fn forms_follow_shigley_and_en_13906() {
    for p in points("f_springs", "f.rate_with_shear", 2) {
        let form = of(&p).form().unwrap();
        p.holds(form.rate_with_direct_shear.get::<newton_per_meter>());
    }
    let index = |p: &Point| {
        geometry(1e-3, p.input("C") * 1e-3, 10.0, 8e10)
            .form()
            .unwrap()
    };
    for p in points("f_springs", "f.wahl", 3) {
        p.holds(index(&p).wahl.get::<ratio>());
    }
    for p in points("f_springs", "f.bergstrasser", 3) {
        p.holds(index(&p).bergstrasser.get::<ratio>());
    }
    for p in points("f_springs", "f.natural_frequency", 2) {
        p.holds(of(&p).form().unwrap().natural_frequency.get::<hertz>());
    }
    for p in points("f_springs", "f.solid_length", 4) {
        let spring = SpringGeometry {
            ends: match p.words("end") {
                "plain" => Ends::Plain,
                "plain and ground" => Ends::PlainGround,
                "squared or closed" => Ends::Closed,
                _ => Ends::ClosedGround,
            },
            ..geometry(p.input("d"), 0.01, p.input("Na"), 8e10)
        };
        p.holds(spring.form().unwrap().solid_height.get::<meter>());
    }
}

/// The height at which the spring carries the point's load.
fn stress_at(spring: &SpringGeometry, load: f64) -> f64 {
    let k = spring.form().unwrap().rate.get::<newton_per_meter>();
    let long = SpringGeometry {
        free_height: spring.form().unwrap().solid_height + m(1.2 * load / k),
        ..*spring
    };
    let loaded = long.at_height(long.free_height - m(load / k)).unwrap();
    close("load", loaded.load.get::<newton>(), load, 1e-11);
    loaded.stress_wahl.get::<pascal>()
}

#[test]
fn stress_carries_wahls_factor() {
    for p in points("f_springs", "f.tau_wahl", 2) {
        let spring = geometry(p.input("d"), p.input("D"), 10.0, 7.93e10);
        p.holds(stress_at(&spring, p.input("F")));
    }
    for p in points("f_springs", "f.book.bhandari_10_18_tau1", 1) {
        let spring = geometry(p.input("d"), p.input("D"), 8.0, 8.137e10);
        p.holds(stress_at(&spring, p.input("F")));
    }
}

#[test]
fn concentric_springs_share_the_load() {
    let rates = |p: &Point| {
        let k = |d: &str, coil: &str, active: &str| {
            geometry(p.input(d), p.input(coil), p.input(active), p.input("G"))
                .form()
                .unwrap()
                .rate
                .get::<newton_per_meter>()
        };
        (k("d1", "D1", "N1"), k("d2", "D2", "N2"))
    };
    for p in points("f_springs", "f.concentric_deflection", 1)
        .into_iter()
        .chain(points("f_springs", "f.book.bhandari_10_18_defl", 1))
    {
        let (outer, inner) = rates(&p);
        p.holds(p.input("F") / (outer + inner));
    }
    for p in points("f_springs", "f.book.bhandari_10_18_P1", 1) {
        let (outer, inner) = rates(&p);
        p.holds(p.input("F") * outer / (outer + inner));
    }
}

#[test]
fn springs_buckle_by_shigley() {
    for p in points("f_springs", "f.buckling_length", 2) {
        let mounting = if p.input("alpha") == 0.5 {
            Mounting::FixedFixed
        } else {
            Mounting::FixedPivoted
        };
        let spring = SpringGeometry {
            young_modulus: pa(p.input("E")),
            ..geometry(1e-3, p.input("D"), 10.0, p.input("G"))
        };
        let safe = spring.buckling(mounting).unwrap().safe_free_height;
        p.holds(safe.get::<meter>());
        let at = |height: f64| {
            let spring = SpringGeometry {
                free_height: m(height),
                ..spring
            };
            spring.buckling(mounting).unwrap().critical_deflection
        };
        assert_eq!(at(0.99 * p.expected()), None);
        let tall = at(2.0 * p.expected()).unwrap();
        assert!(at(3.0 * p.expected()).unwrap() < tall * 3.0);
        assert!(tall < m(p.expected()));
    }
}

/// Shigley ex. 10-1 (from memory): 0.037 in music wire, 7/16 in outside, 12.5 coils squared and
/// plain: C = 10.8, K_B = 1.124, k = 4.13 lbf/in, solid 13.5 d = 0.4995 in.
#[test]
fn worked_example_of_shigley() {
    let inch = 0.0254;
    let spring = SpringGeometry {
        ends: Ends::Closed,
        ..geometry(0.037 * inch, 0.4 * inch, 10.5, 8.170_287_392_4e10)
    };
    let form = spring.form().unwrap();
    close("C", form.index.get::<ratio>(), 10.8, 2e-3);
    close("K_B", form.bergstrasser.get::<ratio>(), 1.124, 5e-4);
    close(
        "k",
        form.rate.get::<newton_per_meter>() / 175.126_835,
        4.13,
        2e-3,
    );
    close("Ls", form.solid_height.get::<meter>() / inch, 0.4995, 1e-9);
}

#[test]
fn a_line_through_measured_loads_has_the_textbook_uncertainty() {
    let reading = |h: f64, f: f64, u: f64| LoadReading {
        height: m(h),
        load: n(f),
        uncertainty: n(u),
    };
    // Heights -1, 0, 1 mm about 25 mm, equal weights: u(k) = u / sqrt(2), u(F mean) = u / sqrt(3).
    let spring = fit(&[
        reading(0.024, 42.0, 0.1),
        reading(0.025, 40.0, 0.1),
        reading(0.026, 38.0, 0.1),
    ])
    .unwrap();
    close("k", spring.rate.get::<newton_per_meter>(), 2000.0, 1e-9);
    close(
        "u(k)",
        spring.rate_uncertainty.get::<newton_per_meter>(),
        100.0 / 2f64.sqrt(),
        1e-9,
    );
    let middle = spring.load_at(m(0.025)).unwrap();
    close("F", middle.load.get::<newton>(), 40.0, 1e-12);
    close(
        "u(F)",
        middle.uncertainty.get::<newton>(),
        0.1 / 3f64.sqrt(),
        1e-9,
    );
    assert!(spring.extrapolates(m(0.03)) && !spring.extrapolates(m(0.0245)));
    // The same readings, one off by 1 N: the scatter says so and raises the uncertainty.
    let off = fit(&[
        reading(0.024, 42.0, 0.1),
        reading(0.025, 41.0, 0.1),
        reading(0.026, 38.0, 0.1),
    ])
    .unwrap();
    assert!(off.scatter > one(5.0) && off.rate_uncertainty > spring.rate_uncertainty * 5.0);
    // Sag: 40 N where 44 N is nominal, at 2 N/mm: 2 mm lost.
    let sag = spring.sag(m(0.025), n(44.0)).unwrap();
    close("lost", sag.lost_height.get::<meter>(), 2e-3, 1e-9);
    close("part", sag.lost_fraction.get::<ratio>(), 4.0 / 44.0, 1e-9);
    assert!(sag.lost_height_uncertainty < m(2e-4));
    let few = fit(&[reading(0.024, 42.0, 0.1)]);
    assert!(matches!(few, Err(PhysicsError::TooFew { .. })));
    let flat = fit(&[reading(0.024, 42.0, 0.1), reading(0.024, 40.0, 0.1)]);
    assert!(matches!(flat, Err(PhysicsError::Contradiction { .. })));
}

#[test]
fn a_nearly_solid_spring_is_told() {
    let spring = geometry(1e-3, 8e-3, 10.0, 7.93e10);
    let solid = spring.form().unwrap().solid_height;
    let near = spring.at_height(solid + m(1e-3)).unwrap();
    assert!(near.assumptions.contains(&Assumption::SpringNearSolid));
    let far = spring.at_height(spring.free_height - m(5e-3)).unwrap();
    assert!(!far.assumptions.contains(&Assumption::SpringNearSolid));
    assert!(spring.at_height(solid - m(1e-4)).is_err());
}

proptest! {
    /// What a shim of the thickness told gives is the pressure that was wanted; and a valve of
    /// another area keeps pressure and droop.
    #[test]
    fn shims_and_new_springs_give_the_pressure_wanted(
        load in 20.0..200.0f64, stiffness in 1000.0..8000.0f64, d in 0.006..0.02f64,
        wanted in 0.9..1.1f64, area_ratio in 0.5..2.0f64, x in 0.0..5e-3f64,
    ) {
        let area = |a: f64| Area::new::<square_meter>(a);
        let a = std::f64::consts::FRAC_PI_4 * d * d;
        let spring = Spring { load_at_rest: n(load), rate: rate(stiffness) };
        let p = pa(wanted * load / a);
        let shim = shim_for_pressure(&spring, area(a), p).unwrap();
        let back = pressure_with_shim(&spring, area(a), shim.thickness).unwrap();
        prop_assert!((back / p).get::<ratio>() - 1.0 < 1e-9);
        let new = spring_for_new_area(&spring, area(a), area(a * area_ratio)).unwrap();
        let before = spring.load_at(m(x)).unwrap().get::<newton>() / a;
        let after = new.load_at(m(x)).unwrap().get::<newton>() / (a * area_ratio);
        prop_assert!((after / before - 1.0).abs() < 1e-12);
    }

    /// Two pairs of load and height give the spring of `Spring::from_loads`.
    #[test]
    fn two_loads_give_the_same_spring_either_way(
        f in 5.0..50.0f64, df in 1.0..50.0f64, h in 0.02..0.04f64, dh in 1e-3..8e-3f64,
    ) {
        let reading = |h, f| LoadReading { height: m(h), load: n(f), uncertainty: n(0.2) };
        let line = fit(&[reading(h, f), reading(h - dh, f + df)]).unwrap();
        let known = Spring::from_loads((n(f), m(h)), (n(f + df), m(h - dh)), m(h)).unwrap();
        let ours = line.installed(m(h)).unwrap();
        prop_assert!((ours.rate / known.rate).get::<ratio>() - 1.0 < 1e-9);
        prop_assert!((ours.load_at_rest - known.load_at_rest).get::<newton>().abs() < 1e-9 * f);
    }
}
