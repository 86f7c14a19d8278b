//! The same equations once more, as plain numbers in scaled states (1 mm, 1 m/s, 1 bar), with
//! their derivative along a direction, as diffsol asks for them. Written to be fast: constants are
//! worked out beforehand.

use std::f64::consts::PI;
use std::ops::{Add, Div, Mul, Neg, Sub};

use serde_json::Value;

use crate::support::described::f;

/// A number and its derivative along one direction.
#[derive(Debug, Clone, Copy)]
pub struct Along(pub f64, pub f64);

/// What the equations need of a number.
pub trait Number:
    Copy
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
{
    fn of(value: f64) -> Self;
    fn value(self) -> f64;
    fn root(self) -> Self;
    fn size(self) -> Self;
}

impl Number for f64 {
    fn of(value: f64) -> Self {
        value
    }
    fn value(self) -> f64 {
        self
    }
    fn root(self) -> Self {
        self.sqrt()
    }
    fn size(self) -> Self {
        self.abs()
    }
}

impl Number for Along {
    fn of(value: f64) -> Self {
        Self(value, 0.0)
    }
    fn value(self) -> f64 {
        self.0
    }
    fn root(self) -> Self {
        let r = self.0.sqrt();
        Self(r, if r > 0.0 { 0.5 * self.1 / r } else { 0.0 })
    }
    fn size(self) -> Self {
        if self.0 < 0.0 { -self } else { self }
    }
}

impl Add for Along {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self(self.0 + o.0, self.1 + o.1)
    }
}
impl Sub for Along {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self(self.0 - o.0, self.1 - o.1)
    }
}
impl Mul for Along {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        Self(self.0 * o.0, self.1 * o.0 + self.0 * o.1)
    }
}
impl Div for Along {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        let r = 1.0 / o.0;
        let q = self.0 * r;
        Self(q, (self.1 - q * o.1) * r)
    }
}
impl Neg for Along {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0, -self.1)
    }
}

/// Sizes of the states.
pub const UNITS: [f64; 4] = [1e-3, 1.0, 1e5, 1e5];

#[derive(Debug, Clone, Copy)]
struct Edge {
    rest: f64,
    sign: f64,
    clearance2: f64,
    slit: f64,
    film: f64,
    jet: f64,
}

/// Everything as constants.
#[derive(Debug, Clone, Copy)]
pub struct Equations {
    line: f64,
    amplitude: f64,
    omega: f64,
    supply: Edge,
    exhaust: Edge,
    balance: (f64, f64),
    outlet: (f64, f64),
    outlets: f64,
    leak: (f64, f64),
    area: f64,
    load: f64,
    rate: f64,
    damping: f64,
    mass: f64,
    jet: f64,
    feed_volume: f64,
    reaction_volume: f64,
    liquid: f64,
    air: f64,
    barometer: f64,
}

impl Equations {
    pub fn new(case: &Value) -> Self {
        let v = &case["valve"];
        let (mu, rho) = (
            f(&v["oil"], "viscosity_pa_s"),
            f(&v["oil"], "density_kg_per_m3"),
        );
        let cd = PI / (PI + 2.0);
        let edge = |o: &Value, sign: f64| {
            let b = PI * f(o, "land_diameter_m") * f(o, "circumference_fraction_ratio");
            Edge {
                rest: f(o, "width_at_rest_m"),
                sign,
                clearance2: f(o, "radial_clearance_m").powi(2),
                slit: 32.0 * mu / (PI * b),
                film: 12.0 * mu / b,
                jet: rho / (2.0 * (cd * b).powi(2)),
            }
        };
        let hole = |d: f64| {
            let area = PI * d * d / 4.0;
            (24.0 * mu / d.powi(3), rho / (2.0 * (cd * area).powi(2)))
        };
        let gap = &v["leaks"][0]["annulus"];
        let (d, c) = (f(gap, "mean_diameter_m"), f(gap, "radial_clearance_m"));
        let e = f(gap, "eccentricity_ratio");
        let factor = d * c.powi(3) * (1.0 + 1.5 * e * e) / f(gap, "length_m");
        Self {
            line: case["line"]["knots"][0][1].as_f64().unwrap(),
            amplitude: f(&case["line"]["ripple"], "amplitude_pa"),
            omega: 2.0 * PI * f(&case["line"]["ripple"], "frequency_hz"),
            supply: edge(&v["supply"], -1.0),
            exhaust: edge(&v["exhaust"], 1.0),
            balance: hole(f(&v["balance_orifice"], "diameter_m")),
            outlet: hole(f(case, "outlet_diameter_m")),
            outlets: f(&v["demand"], "outlets"),
            leak: (
                12.0 * mu / (PI * factor),
                1.5 * rho / (2.0 * (PI * d * c).powi(2)),
            ),
            area: f(v, "reaction_area_m2"),
            load: f(v, "spring_load_n"),
            rate: f(v, "spring_rate_n_per_m"),
            damping: f(case, "damping_n_s_per_m"),
            mass: f(case, "spool_mass_kg"),
            jet: 0.98 * 69f64.to_radians().cos() * (2.0 * rho).sqrt(),
            feed_volume: f(case, "feed_volume_m3"),
            reaction_volume: f(case, "reaction_volume_m3"),
            liquid: f(&case["stiffness"], "liquid_pa"),
            air: f(&case["stiffness"], "entrained_air_ratio"),
            barometer: f(&case["stiffness"], "barometer_pa"),
        }
    }

    fn series<N: Number>(a: N, b: N, dp: N) -> N {
        N::of(2.0) * dp / (a + (a * a + N::of(4.0) * b * dp.size()).root())
    }

    fn hole<N: Number>(law: (f64, f64), dp: N) -> N {
        let a2 = N::of(law.0 * law.0);
        let b = N::of(2.0 * law.1) * dp;
        dp * (N::of(2.0) / (a2 + (a2 * a2 + b * b).root())).root()
    }

    fn edge<N: Number>(o: &Edge, x: N, dp: N) -> N {
        let k2 = N::of(o.clearance2);
        let w = N::of(o.rest) + N::of(o.sign) * x;
        let s = (w * w + k2).root();
        let half = N::of(0.5);
        let (u, film) = if w.value() > 0.0 {
            (half * (w + s), half * k2 / (w + s))
        } else {
            (half * k2 / (s - w), half * (s - w))
        };
        let r = N::of(1.0) / (u * u + k2).root();
        let r2 = r * r;
        let a = N::of(o.slit) * r2 + N::of(o.film) * film * r2 * r;
        Self::series(a, N::of(o.jet) * r2, dp)
    }

    fn modulus<N: Number>(&self, p: N) -> N {
        let one = N::of(1.0);
        let p = p + N::of(self.barometer);
        let air = N::of(self.air * self.barometer) / p;
        one / (N::of(1.0 / self.liquid) + air / (air + N::of(1.0 - self.air)) / p)
    }

    /// Rates of the scaled states.
    pub fn rates<N: Number>(&self, t: f64, y: [N; 4]) -> [N; 4] {
        let unit = |i: usize| y[i] * N::of(UNITS[i]);
        let (x, speed, feed, reaction) = (unit(0), unit(1), unit(2), unit(3));
        let line = N::of(self.line + self.amplitude * (self.omega * t).sin());
        let drop = line - feed;
        let supply = Self::edge(&self.supply, x, drop);
        let exhaust = Self::edge(&self.exhaust, x, feed);
        let balance = Self::hole(self.balance, feed - reaction);
        let demand = N::of(self.outlets) * Self::hole(self.outlet, feed);
        let leak = Self::series(N::of(self.leak.0), N::of(self.leak.1), reaction);
        let area = N::of(self.area);
        let jets = supply.size() * drop.size().root() - exhaust.size() * feed.size().root();
        let force = reaction * area - N::of(self.load) - N::of(self.rate) * x
            + N::of(self.jet) * jets
            - N::of(self.damping) * speed;
        let gain = supply - exhaust - demand - balance;
        let rates = [
            speed,
            force * N::of(1.0 / self.mass),
            self.modulus(feed) * gain * N::of(1.0 / self.feed_volume),
            self.modulus(reaction) * (balance - leak - area * speed)
                / (N::of(self.reaction_volume) + area * x),
        ];
        std::array::from_fn(|i| rates[i] * N::of(1.0 / UNITS[i]))
    }
}
