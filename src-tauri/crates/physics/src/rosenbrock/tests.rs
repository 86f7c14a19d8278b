use super::dual::{Dual, Scalar};
use super::*;

mod test_set;

/// y1' = -k (y1 - cos t) - sin t, y2' = y1^2 y2 cos t: stiff, driven, nonlinear.
struct Driven {
    stiffness: f64,
}

impl Driven {
    fn law<S: Scalar>(&self, t: S, y: &[S; 2]) -> [S; 2] {
        let cos = t.through(f64::cos, |u, _| -u.sin());
        let sin = t.through(f64::sin, |u, _| u.cos());
        [
            (y[0] - cos) * -self.stiffness - sin,
            y[0] * y[0] * y[1] * cos,
        ]
    }

    /// y1 = cos t, y2 = exp(sin t - sin^3 t / 3), when it starts at (1, 1).
    fn exact(t: f64) -> [f64; 2] {
        let s = t.sin();
        [t.cos(), (s - s.powi(3) / 3.0).exp()]
    }
}

impl Stiff<2> for Driven {
    fn rates(&self, t: f64, y: &[f64; 2]) -> [f64; 2] {
        self.law(t, y)
    }

    fn linearised(&self, t: f64, y: &[f64; 2]) -> Linearised<2> {
        let r = self.law(
            Dual::<3>::variable(t, 2),
            &[Dual::variable(y[0], 0), Dual::variable(y[1], 1)],
        );
        Linearised {
            rates: r.map(|d| d.value),
            jacobian: r.map(|d| [d.slopes[0], d.slopes[1]]),
            with_time: r.map(|d| d.slopes[2]),
        }
    }
}

/// Worst error at the ends of `count` steps to t = 2, and inside them.
fn errors(stiffness: f64, count: u32) -> (f64, f64) {
    let system = Driven { stiffness };
    let h = 2.0 / f64::from(count);
    let (mut y, mut ends, mut inside) = ([1.0, 1.0], 0.0f64, 0.0f64);
    for i in 0..count {
        let t = f64::from(i) * h;
        let s = step(&system, t, &y, h, &system.linearised(t, &y)).unwrap();
        for (part, worst) in [(0.4, &mut inside), (1.0, &mut ends)] {
            let (got, want) = (s.at(part), Driven::exact(t + part * h));
            for (got, want) in got.iter().zip(want) {
                *worst = worst.max((got - want).abs());
            }
        }
        y = s.to;
    }
    (ends, inside)
}

#[test]
fn halving_the_step_divides_the_error_by_sixteen() {
    let (coarse, coarse_inside) = errors(1.0, 40);
    let (fine, fine_inside) = errors(1.0, 80);
    let (order, inside) = ((coarse / fine).log2(), (coarse_inside / fine_inside).log2());
    println!("order {order:.2} at the ends, {inside:.2} inside; error {fine:e}");
    assert!((3.7..4.5).contains(&order), "order {order}");
    // The continuous extension is of order 3 globally, so 4 in a single step.
    assert!(inside > 2.8, "order inside {inside}");
}

#[test]
fn a_rate_a_million_times_faster_costs_no_accuracy() {
    let (error, _) = errors(1e6, 80);
    assert!(error < 1e-6, "{error:e}");
}

#[test]
fn a_matrix_that_is_not_finite_is_no_step() {
    let system = Driven {
        stiffness: f64::NAN,
    };
    let y = [1.0, 1.0];
    assert!(step(&system, 0.0, &y, 0.1, &system.linearised(0.0, &y)).is_none());
}
