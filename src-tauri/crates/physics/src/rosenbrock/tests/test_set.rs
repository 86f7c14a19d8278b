//! The method against the test problems of its own field: area j of tests/reference.

use reference::{Point, points};

use super::*;

/// A problem of `N` states, to be differentiated.
trait Law<const N: usize> {
    fn law<S: Scalar>(&self, t: S, y: &[S; N]) -> [S; N];
}

/// A law as the method takes it.
struct Of<L>(L);

/// Up to eight states and the time.
type Slopes = Dual<9>;

impl<const N: usize, L: Law<N>> Stiff<N> for Of<L> {
    fn rates(&self, t: f64, y: &[f64; N]) -> [f64; N] {
        self.0.law(t, y)
    }

    fn linearised(&self, t: f64, y: &[f64; N]) -> Linearised<N> {
        let y: [Slopes; N] = std::array::from_fn(|i| Slopes::variable(y[i], i));
        let rates = self.0.law(Slopes::variable(t, 8), &y);
        Linearised {
            rates: rates.map(|r| r.value),
            jacobian: rates.map(|r| std::array::from_fn(|i| r.slopes[i])),
            with_time: rates.map(|r| r.slopes[8]),
        }
    }
}

/// From `y` at 0 to `end`, each step to `tolerance` of the states over `floor`.
fn solve<const N: usize>(
    law: impl Law<N>,
    mut y: [f64; N],
    end: f64,
    tolerance: f64,
    floor: f64,
) -> [f64; N] {
    let system = Of(law);
    let (mut t, mut h, mut tries) = (0.0, 1e-6 * end.min(1.0), 0);
    while t < end {
        tries += 1;
        assert!(tries < 1_000_000, "came to {t}");
        let last = h >= end - t;
        let taken = if last { end - t } else { h };
        let s = step(&system, t, &y, taken, &system.linearised(t, &y)).unwrap();
        let error = s.error_norm(tolerance, &[floor; N]);
        if error <= 1.0 {
            t = if last { end } else { t + taken };
            y = s.to;
        }
        h = taken * (0.9 * error.powf(-0.25)).clamp(0.2, 5.0);
    }
    y
}

struct Robertson;

impl Law<3> for Robertson {
    fn law<S: Scalar>(&self, _: S, y: &[S; 3]) -> [S; 3] {
        let first = y[0] * -0.04 + y[1] * y[2] * 1e4;
        let third = y[1] * y[1] * 3e7;
        [first, -first - third, third]
    }
}

struct Hires;

impl Law<8> for Hires {
    fn law<S: Scalar>(&self, _: S, y: &[S; 8]) -> [S; 8] {
        let meet = y[5] * y[7] * 280.0;
        [
            y[0] * -1.71 + y[1] * 0.43 + y[2] * 8.32 + 0.0007,
            y[0] * 1.71 + y[1] * -8.75,
            y[2] * -10.03 + y[3] * 0.43 + y[4] * 0.035,
            y[1] * 8.32 + y[2] * 1.71 + y[3] * -1.12,
            y[4] * -1.745 + y[5] * 0.43 + y[6] * 0.43,
            y[3] * 0.69 + y[4] * 1.71 + y[5] * -0.43 + y[6] * 0.69 - meet,
            meet + y[6] * -1.81,
            y[6] * 1.81 - meet,
        ]
    }
}

struct VanDerPol;

impl Law<2> for VanDerPol {
    fn law<S: Scalar>(&self, _: S, y: &[S; 2]) -> [S; 2] {
        let room = -(y[0] * y[0]) + 1.0;
        [y[1], room * y[1] * 1000.0 - y[0]]
    }
}

fn robertson(t: f64) -> [f64; 3] {
    solve(Robertson, [1.0, 0.0, 0.0], t, 1e-9, 1e-12)
}

fn hires(t: f64) -> [f64; 8] {
    let y = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0057];
    solve(Hires, y, t, 1e-9, 1e-9)
}

fn van_der_pol(t: f64) -> [f64; 2] {
    solve(VanDerPol, [2.0, 0.0], t, 1e-10, 1e-3)
}

fn component<const N: usize>(point: &Point, y: [f64; N]) -> f64 {
    y[point.input("component") as usize - 1]
}

#[test]
fn problems_of_the_test_set() {
    for point in points("j_stiff", "j.robertson.", 5) {
        point.holds(component(&point, robertson(point.input("t"))));
    }
    for point in points("j_stiff", "j.hires.", 2) {
        point.holds(component(&point, hires(point.input("t"))));
    }
    for point in points("j_stiff", "j.vdp1000.", 2) {
        point.holds(component(&point, van_der_pol(point.input("t"))));
    }
    for point in points("j_stiff", "j.published.", 7) {
        let t = point.input("t");
        point.holds(match point.words("problem") {
            "robertson" => component(&point, robertson(t)),
            "hires" => component(&point, hires(t)),
            "vdp1000" => component(&point, van_der_pol(t)),
            other => panic!("{other}"),
        });
    }
}

struct Damped {
    mass: f64,
    damping: f64,
    rate: f64,
    force: f64,
}

impl Law<2> for Damped {
    fn law<S: Scalar>(&self, _: S, y: &[S; 2]) -> [S; 2] {
        let force = y[0] * -self.rate + y[1] * -self.damping + self.force;
        [y[1], force * (1.0 / self.mass)]
    }
}

struct Filling {
    supply: f64,
    /// beta Cd A sqrt(2 / rho) / V.
    pace: f64,
}

impl Law<1> for Filling {
    fn law<S: Scalar>(&self, _: S, y: &[S; 1]) -> [S; 1] {
        let drop = -y[0] + self.supply;
        [drop.through(f64::sqrt, |_, root| 0.5 / root) * self.pace]
    }
}

struct ProtheroRobinson(f64);

impl Law<1> for ProtheroRobinson {
    fn law<S: Scalar>(&self, t: S, y: &[S; 1]) -> [S; 1] {
        let cos = t.through(f64::cos, |u, _| -u.sin());
        let sin = t.through(f64::sin, |u, _| u.cos());
        [(y[0] - cos) * -self.0 - sin]
    }
}

#[test]
fn exact_solutions() {
    for point in points("j_stiff", "j.mass_spring_damper.", 3) {
        let law = Damped {
            mass: point.input("m"),
            damping: point.input("c"),
            rate: point.input("k"),
            force: point.input("F"),
        };
        let start = [point.input("x0"), point.input("v0")];
        point.holds(solve(law, start, point.input("t"), 1e-12, 1e-3)[0]);
    }
    for point in points("j_stiff", "j.chamber_pressure.", 2) {
        let area = std::f64::consts::FRAC_PI_4 * point.input("d").powi(2);
        let speed = (2.0 / point.input("rho")).sqrt();
        let law = Filling {
            supply: point.input("p_s"),
            pace: point.input("beta") * point.input("Cd") * area * speed / point.input("V"),
        };
        point.holds(solve(law, [point.input("p0")], point.input("t"), 1e-12, 1e3)[0]);
    }
    for point in points("j_stiff", "j.prothero_robinson.", 2) {
        let law = ProtheroRobinson(point.input("lambda"));
        point.holds(solve(law, [point.input("y0")], point.input("t"), 1e-11, 1.0)[0]);
    }
}
