//! Published discharge coefficients, for the band around our own law.
//!
//! Each takes Re_h, the Reynolds number with the ideal speed, and gives the coefficient. None of
//! them is used for the nominal flow.

use crate::opening::EDGE_DISCHARGE;
use crate::root::bracketed;

/// Lowest and highest coefficient among `own` and the laws that claim this length over diameter.
pub(super) fn band(own: f64, re_h: f64, slender: f64) -> (f64, f64) {
    if re_h <= 0.0 {
        return (own, own);
    }
    let mut low = own;
    let mut high = own;
    let mut take = |c: f64| {
        low = low.min(c);
        high = high.max(c);
    };
    if slender < 1.5 {
        take(handbook_edge(re_h));
        take(wu(re_h));
        take(edge_sum(re_h));
    }
    if slender > 0.5 {
        take(short_tube(re_h, slender));
    }
    if (2.0..=10.0).contains(&slender) && re_h >= 10.0 {
        take(long_orifice(re_h, slender));
    }
    (low, high)
}

/// Laminar Cd = 0.2 sqrt(Re) up to the jet's 0.611 (Wuest, in Merritt 1967 ch. 3, from memory).
fn handbook_edge(re_h: f64) -> f64 {
    (0.04 * re_h).min(EDGE_DISCHARGE)
}

/// The exact creeping loss and the jet's loss simply added.
fn edge_sum(re_h: f64) -> f64 {
    let half = 6.0 * std::f64::consts::PI / re_h;
    1.0 / (half + (half * half + EDGE_DISCHARGE.powi(-2)).sqrt())
}

/// Wu, Burton & Schoenau 2002, sharp edge (from memory).
fn wu(re_h: f64) -> f64 {
    solve(re_h, |re| {
        let s = re.sqrt();
        0.61 * (1.0 + 1.07 * (-0.126 * s).exp() - 2.07 * (-0.246 * s).exp())
    })
}

/// Short tube (Merritt 1967, as eqs. 2.40 and 2.41 of Rabie, *Fluid Power Engineering*).
pub(super) fn short_tube_at(re: f64, slender: f64) -> f64 {
    let x = re / slender;
    if x > 50.0 {
        (1.5 + 13.74 * x.recip().sqrt()).powf(-0.5)
    } else {
        (2.28 + 64.0 / x).powf(-0.5)
    }
}

fn short_tube(re_h: f64, slender: f64) -> f64 {
    solve(re_h, |re| short_tube_at(re, slender))
}

/// Lichtarowicz, Duggins & Markland 1965; 10 < Re_h < 2e4, 2 <= L/d <= 10.
pub(super) fn long_orifice(re_h: f64, slender: f64) -> f64 {
    let inertial = 0.827 - 0.0085 * slender;
    let dip = 1.0 + 7.5 * (0.00015 * re_h).log10().powi(2);
    1.0 / (1.0 / inertial + 20.0 / re_h * (1.0 + 2.25 * slender) - 0.005 * slender / dip)
}

/// The coefficient C with C = law(C Re_h), the Reynolds number being with the true mean speed.
fn solve(re_h: f64, law: impl Fn(f64) -> f64) -> f64 {
    let f = |c: f64| c - law(c * re_h);
    // Below the creeping limit of any law by far; at C = 1 each law is under 1.
    let low = (1e-6 * re_h).min(1e-3);
    bracketed(&f, low, f(low), 1.0, f(1.0), 1e-12)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Points c.short_tube_Cd.* and c.ldm_Cd_reh.* of tests/reference/c_orifices.json are
    /// repeated here, as these laws are private to the crate.
    #[test]
    fn transcriptions_match_the_reference_points() {
        for (slender, re, cd) in [
            (2.0, 1000.0, 0.687_700_094_625_061_1),
            (3.0, 60.0, 0.427_178_828_858_380_5),
            (1.25, 20_000.0, 0.788_447_346_617_119_2),
            (5.0, 400.0, 0.573_900_146_176_157),
        ] {
            assert!((short_tube_at(re, slender) - cd).abs() < 1e-12);
        }
        for (slender, re_h, cd) in [
            (2.0, 100.0, 0.428_415_508_187_695_86),
            (4.0, 1000.0, 0.685_988_390_183_738_7),
            (8.0, 15_000.0, 0.756_353_203_914_742_5),
        ] {
            assert!((long_orifice(re_h, slender) - cd).abs() < 1e-12);
        }
    }

    /// REFERENCES.md, table of part c: d = 1 mm, L = 2 mm, nu = 20 mm2/s, rho = 850.
    #[test]
    fn implicit_laws_match_the_table_of_spread() {
        let re_h = |dp: f64| 0.001 * (2.0 * dp / 850.0_f64).sqrt() / 20e-6;
        for (dp, tube, edge) in [
            (1e3, 0.3907, 0.6566),
            (1e4, 0.5622, 0.6856),
            (1e6, 0.7130, 0.6149),
        ] {
            assert!((short_tube(re_h(dp), 2.0) - tube).abs() < 1e-4);
            assert!((wu(re_h(dp)) - edge).abs() < 1e-4);
        }
    }

    /// How near our bore law keeps to the 1965 correlation, as the module's text says.
    #[test]
    fn own_bore_law_keeps_near_the_long_orifice_correlation() {
        let (d, mu, rho) = (1e-3_f64, 1e-2, 850.0);
        let off = |slender: f64, re_h: f64| {
            let speed = re_h * mu / (rho * d);
            let law = super::super::OrificeLaw::new(d, slender * d, mu, rho);
            let flow = law.flow(0.5 * rho * speed * speed);
            let cd = flow / (std::f64::consts::FRAC_PI_4 * d * d * speed);
            cd / long_orifice(re_h, slender) - 1.0
        };
        for slender in [2.0, 3.0, 4.0, 6.0, 8.0, 10.0] {
            for re_h in [200.0, 500.0, 1e3, 2e3, 5e3, 1e4, 2e4] {
                assert!(off(slender, re_h).abs() < 0.055, "{slender} {re_h}");
            }
            for re_h in [10.0, 30.0, 100.0] {
                assert!(
                    (-0.3..0.01).contains(&off(slender, re_h)),
                    "{slender} {re_h}"
                );
            }
        }
    }
}
