//! Ports against plane geometry and against their own laws.

use super::*;
use crate::opening::{Opening, Travel};
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::*;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;

fn m(x: f64) -> Length {
    Length::new::<meter>(x)
}

fn oil(mu: f64) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(mu),
        density: MassDensity::new::<kilogram_per_cubic_meter>(850.0),
        extrapolated: false,
    }
}

fn windows() -> impl Strategy<Value = Window> {
    prop_oneof![
        (4e-3..0.03f64, 0.05..1.0f64).prop_map(|(d, f)| Window::AnnularSlot {
            land_diameter: m(d),
            circumference_fraction: Ratio::new::<ratio>(f),
        }),
        (1u32..8, 5e-4..5e-3f64).prop_map(|(count, d)| Window::RoundHoles {
            count,
            diameter: m(d),
        }),
        (1u32..8, 5e-4..5e-3f64, 5e-4..5e-3f64).prop_map(|(count, w, l)| Window::Slots {
            count,
            width: m(w),
            length: m(l),
        }),
        (1u32..8, 5e-4..5e-3f64, 0.5..3.0f64).prop_map(|(count, w, l)| Window::RoundEndedSlots {
            count,
            width: m(w),
            length: m(l * w),
        }),
        (1u32..8, 0.2..1.2f64, 5e-4..5e-3f64).prop_map(|(count, a, l)| Window::VNotches {
            count,
            half_angle: Angle::new::<radian>(a),
            length: m(l),
        }),
    ]
}

fn port(window: Window, c: f64, r: f64) -> Port {
    Port {
        window,
        radial_clearance: m(c),
        edge_radius: m(r),
    }
}

fn area(p: &Port, w: f64) -> (f64, f64) {
    let a = p.area_at(m(w)).unwrap();
    (a.area.get::<square_meter>(), a.slope.get::<meter>())
}

proptest! {
    #[test]
    fn area_grows_with_opening_and_its_slope_is_that_of_its_values(
        window in windows(), c in 2e-6..1e-4f64, r in 0.0..2e-4f64, w in -3e-3..6e-3f64,
    ) {
        let port = port(window, c, r);
        let (a, slope) = area(&port, w);
        let e = 1e-3 * c;
        let (before, after) = (area(&port, w - e), area(&port, w + e));
        prop_assert!(a > 0.0 && before.0 <= a && a <= after.0);
        if let Some(full) = port.full_area().unwrap() {
            prop_assert!(a <= full.get::<square_meter>());
        }
        // Where the widest part or the end is just being met the slope has a step.
        let smooth = (before.1 - after.1).abs() <= 0.02 * slope.abs();
        let numeric = (after.0 - before.0) / (2.0 * e);
        prop_assert!(
            !smooth || (numeric - slope).abs() <= 1e-3 * slope.abs() + 1e-11,
            "{numeric} {slope}"
        );
    }

    #[test]
    fn flow_never_stops_jumps_or_falls(
        window in windows(), c in 2e-6..1e-4f64, r in 0.0..2e-4f64, w in -3e-3..6e-3f64,
        step in 1e-7..1e-3f64, size in 1.0..2e6f64, back in any::<bool>(), mu in 3e-3..1.0f64,
    ) {
        let dp = if back { -size } else { size };
        let port = port(window, c, r);
        let at = |w: f64| port.flow(m(w), Pressure::new::<pascal>(dp), &oil(mu)).unwrap().flow;
        let q = at(w).get::<cubic_meter_per_second>();
        let more = at(w + step).get::<cubic_meter_per_second>();
        prop_assert!(q * dp > 0.0);
        prop_assert!(more.abs() >= q.abs() * (1.0 - 1e-12), "{q} {more}");
    }

    /// As the regulator meters by it: the same flow, and slopes that are those of its values.
    #[test]
    fn slopes_are_those_of_the_flow(
        window in windows(), c in 2e-6..1e-4f64, w in -3e-3..6e-3f64, size in 1e3..2e6f64,
        back in any::<bool>(), mu in 3e-3..1.0f64,
    ) {
        let dp = if back { -size } else { size };
        let law = Law::sharp(window.shape().unwrap(), c);
        let at = |w: f64, dp: f64| law.flow(w, dp, mu, 850.0);
        let (q, with_width, with_drop) = law.flow_and_slopes(w, dp, mu, 850.0);
        let public = port(window, c, 0.0).flow(m(w), Pressure::new::<pascal>(dp), &oil(mu));
        let public = public.unwrap().flow.get::<cubic_meter_per_second>();
        prop_assert!((q / public - 1.0).abs() < 1e-14 && (q / at(w, dp) - 1.0).abs() < 1e-14);
        let (e, f) = (1e-3 * c, 1e-4 * dp);
        let numeric = (at(w, dp + f) - at(w, dp - f)) / (2.0 * f);
        prop_assert!((numeric - with_drop).abs() <= 1e-6 * with_drop, "{numeric} {with_drop}");
        // Where a window has just been uncovered whole its slope has a step.
        let beside = [w - e, w + e].map(|w| law.flow_and_slopes(w, dp, mu, 850.0).1);
        let smooth = (beside[0] - beside[1]).abs() <= 0.02 * with_width.abs();
        let numeric = (at(w + e, dp) - at(w - e, dp)) / (2.0 * e);
        prop_assert!(with_width * dp >= 0.0);
        prop_assert!(
            !smooth || (numeric - with_width).abs() <= 2e-3 * with_width.abs() + 1e-9 * q.abs() / e,
            "{numeric} {with_width}"
        );
    }

    /// A sharp annular slot is the edge of the static regulator: same area, and within a few per
    /// cent the same flow, open or well covered.
    #[test]
    fn a_sharp_slot_agrees_with_the_regulators_edge(
        c in 5e-6..6e-5f64, w in -1.5e-3..1.5e-3f64, dp in 1e4..2e6f64, mu in 3e-3..0.1f64,
    ) {
        let (d, part) = (m(0.012), Ratio::new::<ratio>(0.5));
        let ours = port(
            Window::AnnularSlot { land_diameter: d, circumference_fraction: part },
            c,
            0.0,
        );
        let theirs = Opening {
            land_diameter: d,
            circumference_fraction: part,
            window: None,
            width_at_rest: m(w),
            travel: Travel::Opens,
            radial_clearance: m(c),
        };
        let a = theirs.area_at(m(0.0)).unwrap().get::<square_meter>();
        prop_assert!((area(&ours, w).0 / a - 1.0).abs() < 1e-12);
        if w.abs() > 20.0 * c {
            let dp = Pressure::new::<pascal>(dp);
            let q = ours.flow(m(w), dp, &oil(mu)).unwrap().flow;
            let known = theirs.flow(m(0.0), dp, &oil(mu)).unwrap();
            prop_assert!((q / known).get::<ratio>() - 1.0 < 0.06, "{q:?} {known:?}");
            prop_assert!((q / known).get::<ratio>() - 1.0 > -0.06, "{q:?} {known:?}");
        }
    }
}

#[test]
fn limits_are_those_of_plane_geometry() {
    let close = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-9, "{a} {b}");
    let at = |w: Window, v: f64| w.shape().unwrap().area_and_width(v);
    let holes = Window::RoundHoles {
        count: 4,
        diameter: m(2e-3),
    };
    close(at(holes, 2e-3).0, 4.0 * PI * 1e-6);
    close(at(holes, 1e-3).0, 2.0 * PI * 1e-6);
    close(at(holes, 1e-3).1, 8e-3);
    // A quarter of the diameter: r^2 (pi/3 - sqrt(3)/4).
    close(at(holes, 5e-4).0, 4e-6 * (PI / 3.0 - 3f64.sqrt() / 4.0));
    let u = Window::RoundEndedSlots {
        count: 1,
        width: m(2e-3),
        length: m(3e-3),
    };
    close(at(u, 3e-3).0, PI / 2.0 * 1e-6 + 2e-3 * 2e-3);
    let v = Window::VNotches {
        count: 2,
        half_angle: Angle::new::<radian>(PI / 4.0),
        length: m(2e-3),
    };
    close(at(v, 1e-3).0, 2e-6);
    close(at(v, 5e-3).0, 8e-6);
}

/// A rounded edge opens before its corner does: at w = 0 the gap of two roundings r is
/// hypot(2 r, c + 2 r) - 2 r, save for the smoothing near null.
#[test]
fn rounding_acts_like_a_longer_opening() {
    let slot = Window::AnnularSlot {
        land_diameter: m(0.01),
        circumference_fraction: Ratio::new::<ratio>(1.0),
    };
    let (c, r) = (2e-5, 1e-4_f64);
    let gap = |r: f64| port(slot, c, r).area_at(m(0.0)).unwrap().gap.get::<meter>();
    let exact = (2.0 * r).hypot(c + 2.0 * r) - 2.0 * r;
    assert!((gap(r) / exact - 1.0).abs() < 0.02, "{} {exact}", gap(r));
    assert!(gap(r) > 3.0 * gap(0.0));
}

/// A hole of 2 mm covered by 0.3 mm: S = 2 pi / acosh(1.3) = 8.305.
#[test]
fn a_covered_hole_leaks_like_a_buried_cylinder() {
    let hole = Window::RoundHoles {
        count: 1,
        diameter: m(2e-3),
    };
    let s = hole.shape().unwrap().film(3e-4);
    assert!((s - 2.0 * PI / 1.3f64.acosh()).abs() < 1e-9);
    let (c, mu, dp) = (2e-5, 0.02, 1e5);
    let port = port(hole, c, 0.0);
    let q = port.flow(m(-3e-4), Pressure::new::<pascal>(dp), &oil(mu));
    let film = s * c.powi(3) * dp / (12.0 * mu);
    let ratio_of = q.unwrap().flow.get::<cubic_meter_per_second>() / film;
    assert!((0.85..1.0).contains(&ratio_of), "{ratio_of}");
}

#[test]
fn a_slot_shorter_than_its_round_end_is_refused() {
    let u = Window::RoundEndedSlots {
        count: 1,
        width: m(4e-3),
        length: m(1e-3),
    };
    assert!(matches!(
        port(u, 2e-5, 0.0).area_at(m(0.0)),
        Err(PhysicsError::Contradiction {
            field: "window_length_m",
            ..
        })
    ));
}

/// Forty covered windows against a finite-difference solution, which is itself 2 to 6 % low.
#[test]
fn films_agree_with_an_independent_solution() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../tests/reference/covered_windows.json"
    );
    let table: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let rows = table["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 40);
    // A window 4 mm long.
    let l = 4e-3;
    for row in rows {
        let number = |name: &str| row[name].as_f64().unwrap();
        let size = number("size");
        let window = match row["kind"].as_str().unwrap() {
            "hole" => Window::RoundHoles {
                count: 1,
                diameter: m(2.0 * size * l),
            },
            "slot" => Window::Slots {
                count: 1,
                width: m(size * l),
                length: m(l),
            },
            "v" => Window::VNotches {
                count: 1,
                half_angle: Angle::new::<radian>(size),
                length: m(l),
            },
            _ => Window::RoundEndedSlots {
                count: 1,
                width: m(2.0 * size * l),
                length: m(l),
            },
        };
        let film = window.shape().unwrap().film(number("cover") * l);
        let off = film / number("S") - 1.0;
        assert!((-0.04..0.16).contains(&off), "{row}: {film} ({off})");
    }
}
