//! One bracketed root, for every equation of this crate that has no closed form.

use crate::error::PhysicsError;

/// A root of `f` between `a` and `b`, given the values there, by Chandrupatla's method: inverse
/// quadratic interpolation where it is safe, bisection where not, the bracket always kept.
///
/// `fa` and `fb` must not have the same sign; if they do, the end with the smaller value comes
/// back. Stops when the bracket is narrower than `tolerance` (absolute, in x), or at the last
/// bit, or after 200 steps.
///
/// Source: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero
/// of a nonlinear function without using derivatives", Advances in Engineering Software 28
/// (1997) 145 (from memory).
pub(crate) fn bracketed(
    mut f: impl FnMut(f64) -> f64,
    a: f64,
    fa: f64,
    b: f64,
    fb: f64,
    tolerance: f64,
) -> f64 {
    let (mut x1, mut f1, mut x2, mut f2) = (b, fb, a, fa);
    if f1 == 0.0 {
        return x1;
    }
    if f2 == 0.0 {
        return x2;
    }
    if (f1 > 0.0) == (f2 > 0.0) {
        return if f1.abs() < f2.abs() { x1 } else { x2 };
    }
    let mut t = 0.5;
    for _ in 0..200 {
        let x = x1 + t * (x2 - x1);
        let fx = f(x);
        let (x3, f3);
        if (fx > 0.0) == (f1 > 0.0) {
            (x3, f3) = (x1, f1);
        } else {
            (x3, f3) = (x2, f2);
            (x2, f2) = (x1, f1);
        }
        (x1, f1) = (x, fx);
        let (best, best_value) = if f1.abs() < f2.abs() {
            (x1, f1)
        } else {
            (x2, f2)
        };
        let width = (x2 - x1).abs();
        let limit = (0.5 * tolerance + 2.0 * f64::EPSILON * best.abs()) / width;
        if best_value == 0.0 || limit > 0.5 {
            return best;
        }
        let xi = (x1 - x2) / (x3 - x2);
        let phi = (f1 - f2) / (f3 - f2);
        t = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            f1 / (f2 - f1) * f3 / (f2 - f3)
                + (x3 - x1) / (x2 - x1) * f1 / (f3 - f1) * f2 / (f3 - f2)
        } else {
            0.5
        };
        t = t.clamp(limit, 1.0 - limit);
        if t.is_nan() {
            t = 0.5;
        }
    }
    if f1.abs() < f2.abs() { x1 } else { x2 }
}

/// A root of `f` between `a` and `b` to the last bit, refused when there is none.
///
/// # Errors
/// [`PhysicsError::NoSolution`] naming `what`, when `f` has the same sign at both ends or is not
/// finite at one of them or at the root.
pub(crate) fn between(
    what: &'static str,
    a: f64,
    b: f64,
    mut f: impl FnMut(f64) -> f64,
) -> Result<f64, PhysicsError> {
    let (fa, fb) = (f(a), f(b));
    let signs_differ = (fa <= 0.0 && fb >= 0.0) || (fa >= 0.0 && fb <= 0.0);
    if !(fa.is_finite() && fb.is_finite() && signs_differ) {
        return Err(PhysicsError::NoSolution { what });
    }
    let x = bracketed(&mut f, a, fa, b, fb, 0.0);
    if f(x).is_finite() {
        Ok(x)
    } else {
        Err(PhysicsError::NoSolution { what })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solve(f: impl Fn(f64) -> f64, a: f64, b: f64) -> f64 {
        bracketed(&f, a, f(a), b, f(b), 1e-14)
    }

    #[test]
    fn finds_smooth_flat_and_kinked_roots() {
        assert!((solve(|x| x * x - 2.0, 0.0, 3.0) - 2f64.sqrt()).abs() < 1e-13);
        // Triple root: interpolation is useless, bisection must carry it.
        assert!((solve(|x| (x - 0.3).powi(3), -1.0, 2.0) - 0.3).abs() < 1e-4);
        assert!((solve(|x| (x - 0.7).max(-0.01) + 1e-3 * x, 0.0, 5.0) - 0.7 / 1.001).abs() < 1e-12);
        // A jump has no root; the place of the jump comes back.
        assert!((solve(|x| if x < 0.4 { -1.0 } else { 1.0 }, 0.0, 1.0) - 0.4).abs() < 1e-12);
    }

    #[test]
    fn says_so_when_there_is_no_sign_change() {
        let none = PhysicsError::NoSolution { what: "x" };
        assert_eq!(between("x", 0.0, 1.0, |x| x + 1.0), Err(none.clone()));
        assert_eq!(between("x", 0.0, 1.0, |_| f64::NAN), Err(none));
        assert_eq!(between("x", 0.0, 1.0, |x| x), Ok(0.0));
    }
}
