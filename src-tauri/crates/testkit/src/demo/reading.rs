//! Readings of a bore whose true state is known, on a stand whose true state is known.

use model::Finite;
use model::bench::{
    Ambient, Blank, Instrument, OrificeReading, Reading, Setup, Stand, StandCheck, Surface,
};
use model::geometry;
use model::unit::{BoreProfile, OrificePath, TestPoint, ValvePosition};
use physics::air::Air;
use physics::atmosphere;
use physics::gap::Land;
use physics::hole::Hole;
use physics::quantity::{hose_resistance, inches_of_mercury, sonic_conductance};
use physics::vacuum_stand::{BalanceOrifice, DeadHead, FarSide, Leak, TestLand, VacuumStand};
use rand_chacha::ChaCha20Rng;
use rand_distr::{Distribution, Normal};
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::length::{meter, micrometer, millimeter};
use uom::si::pressure::{hectopascal, pascal};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume_rate::liter_per_minute;

use super::DemoError;
use super::source::{TestSource, TrueStand};
use crate::seeded;

/// What a true test is made of, besides its source.
pub(crate) struct Bench<'a> {
    pub source: &'a TestSource,
    pub truth: &'a TrueStand,
    pub stand: &'a Stand,
    pub gauge: &'a Instrument,
    pub profile: &'a BoreProfile,
    pub test_point: &'a TestPoint,
}

/// The parts of a test as a person would have recorded them.
pub(crate) struct Taken {
    pub setup: Setup,
    pub stand_check: StandCheck,
    pub blank: Option<Blank>,
    pub readings: Vec<Reading>,
    /// The reading that takes the place of one taken with a leaking plug.
    pub instead: Option<Reading>,
}

impl Bench<'_> {
    /// Takes the whole test: dead head, orifices, blank, readings.
    pub fn take(&self) -> Result<Taken, DemoError> {
        let source = self.source;
        let mut gauge = Gauge::new(self)?;
        let (ambient, barometer) = self.ambient()?;
        let air = Air::at(ThermodynamicTemperature::new::<degree_celsius>(
            source.air_c,
        ))?;
        let stand = self.true_stand(barometer)?;
        let mut show = |leak: &Leak, orifice: &BalanceOrifice| {
            let shown = stand.reading(leak, orifice, &air, barometer)?;
            gauge.read(shown.reading.get::<pascal>())
        };

        let dead_head = show(&Leak::none(), &BalanceOrifice::Blocked)?;
        let mut orifices = Vec::new();
        for label in &source.orifices {
            let known = self
                .stand
                .orifices
                .iter()
                .find(|orifice| orifice.label == *label);
            let known = known.ok_or_else(|| DemoError::Unknown(label.clone()))?;
            let hole = Hole::new(
                sonic_conductance(*known.sonic_conductance_m3_s_pa),
                Ratio::new::<ratio>(*known.critical_ratio),
            )?;
            let (vacuum_pa, as_typed) = show(&Leak::Hole(hole), &BalanceOrifice::Blocked)?;
            orifices.push(OrificeReading {
                label: label.clone(),
                vacuum_pa,
                as_typed,
            });
        }
        let plug = source
            .blank_hole_mm
            .map(|mm| Hole::drilled(Length::new::<millimeter>(mm), None))
            .transpose()?;
        let blank = match plug {
            Some(hole) => {
                let (vacuum, as_typed) = show(&Leak::Hole(hole), &BalanceOrifice::Blocked)?;
                Some(Blank {
                    vacuum_pa: Some(vacuum),
                    as_typed,
                })
            }
            None => None,
        };
        let orifice = self.balance_orifice()?;
        let mut readings = Vec::new();
        for (i, &off_centre) in source.off_centre.iter().enumerate() {
            let mut leak = vec![self.bore_leak(off_centre)?];
            leak.extend(plug.map(Leak::Hole));
            if let Some(slipped) = source.slipped.as_ref().filter(|s| s.reading == i) {
                let hole = Length::new::<millimeter>(slipped.hole_mm);
                leak.push(Leak::Hole(Hole::drilled(hole, None)?));
            }
            let (vacuum_pa, as_typed) = show(&Leak::Sum(leak), &orifice)?;
            let reseated = i > 0 && !source.not_reseated.contains(&i);
            readings.push(Reading {
                vacuum_pa,
                reseated,
                as_typed,
            });
        }
        let instead = match &source.slipped {
            Some(slipped) => {
                let mut leak = vec![self.bore_leak(slipped.off_centre)?];
                leak.extend(plug.map(Leak::Hole));
                let (vacuum_pa, as_typed) = show(&Leak::Sum(leak), &orifice)?;
                Some(Reading {
                    vacuum_pa,
                    reseated: true,
                    as_typed,
                })
            }
            None => None,
        };
        let (dead_head_vacuum_pa, as_typed) = dead_head;
        Ok(Taken {
            setup: self.setup(ambient)?,
            stand_check: StandCheck {
                dead_head_vacuum_pa,
                as_typed,
                orifices,
            },
            blank,
            readings,
            instead,
        })
    }

    fn ambient(&self) -> Result<(Ambient, Pressure), DemoError> {
        let source = self.source;
        match (source.barometer_hpa, source.altitude_m) {
            (Some(hpa), None) => {
                let pressure = Pressure::new::<hectopascal>(hpa);
                let pressure_pa = finite(pressure.get::<pascal>())?;
                Ok((Ambient::Barometer { pressure_pa }, pressure))
            }
            (None, Some(altitude)) => {
                let pressure = atmosphere::pressure(Length::new::<meter>(altitude))?;
                Ok((
                    Ambient::Altitude {
                        altitude_m: finite(altitude)?,
                    },
                    pressure,
                ))
            }
            _ => Err(DemoError::Form {
                path: source.subject.clone(),
                error: "needs either barometer_hpa or altitude_m".into(),
            }),
        }
    }

    fn setup(&self, ambient: Ambient) -> Result<Setup, DemoError> {
        Ok(Setup {
            valve_position: self.test_point.valve_position,
            orifice: self.test_point.orifice,
            surface: match self.source.surface.as_deref() {
                Some("oiled") => Surface::Oiled,
                _ => Surface::Dry,
            },
            ambient,
            air_temperature_k: finite(self.source.air_c + 273.15)?,
        })
    }

    fn true_stand(&self, barometer: Pressure) -> Result<VacuumStand, DemoError> {
        let sea_level = atmosphere::sea_level_pressure();
        let dead = DeadHead {
            pressure: sea_level - inches_of_mercury(self.truth.dead_head_inhg_at_sea_level),
            barometer: sea_level,
            follows_barometer: self.stand.dead_head_follows_barometer,
        };
        Ok(VacuumStand {
            pull: VolumeRate::new::<liter_per_minute>(self.truth.pull_l_per_min),
            dead_head: DeadHead {
                pressure: dead.at(barometer)?,
                barometer,
                follows_barometer: dead.follows_barometer,
            },
            hose_resistance: hose_resistance(self.truth.hose_resistance_pa_s_m3),
        })
    }

    fn balance_orifice(&self) -> Result<BalanceOrifice, DemoError> {
        let Some(orifice) = &self.profile.balance_orifice else {
            return Ok(BalanceOrifice::Blocked);
        };
        let hole = Hole::drilled(Length::new::<meter>(*orifice.diameter_m), None)?;
        Ok(match self.test_point.orifice {
            OrificePath::Blocked => BalanceOrifice::Blocked,
            OrificePath::InSeries => BalanceOrifice::InSeries(hole),
            OrificePath::InParallel => BalanceOrifice::InParallel(hole),
        })
    }

    /// The true gap of every stretch that the test isolates.
    fn bore_leak(&self, off_centre: f64) -> Result<Leak, DemoError> {
        let profile = self.profile;
        let stroke = match self.test_point.valve_position {
            ValvePosition::HeldRegulating => geometry::regulating_stroke(profile).unwrap_or(0.0),
            _ => 0.0,
        };
        let chamber = self.test_point.evacuates;
        let mut lands = Vec::new();
        for name in &self.test_point.isolates {
            let land = profile
                .land(name)
                .ok_or_else(|| DemoError::Unknown(name.clone()))?;
            for seal in &land.seals {
                if seal.left != chamber && seal.right != chamber {
                    continue;
                }
                let length = geometry::engaged_length(profile, land, seal, stroke);
                let diameter = land
                    .diameter_m
                    .ok_or_else(|| DemoError::Unknown(format!("diameter of {name}")))?;
                let mean = Length::new::<meter>((*diameter + *profile.bore.diameter_m) / 2.0);
                lands.push(TestLand {
                    land: Land::new(mean, Length::new::<meter>(length))?,
                    far_side: FarSide::Ambient,
                });
            }
        }
        let open_um = self.source.oil_leaves_um;
        let open_um = open_um.unwrap_or(self.source.clearance_um);
        Ok(Leak::Lands {
            lands,
            radial_clearance: Length::new::<micrometer>(open_um / 2.0),
            eccentricity: Ratio::new::<ratio>(off_centre),
            entry_exit_loss: None,
        })
    }
}

/// A gauge with its own error, its noise and its smallest step.
struct Gauge {
    random: ChaCha20Rng,
    noise: Normal<f64>,
    error_pa: f64,
    step_pa: f64,
}

impl Gauge {
    fn new(bench: &Bench<'_>) -> Result<Self, DemoError> {
        let pa = |inhg: f64| inches_of_mercury(inhg).get::<pascal>();
        let noise =
            Normal::new(0.0, pa(bench.truth.noise_inhg)).map_err(|error| DemoError::Form {
                path: bench.truth.stand.clone(),
                error: error.to_string(),
            })?;
        Ok(Self {
            random: seeded::generator(&bench.source.subject),
            noise,
            error_pa: pa(bench.truth.gauge_error_inhg),
            step_pa: *bench.gauge.resolution_si,
        })
    }

    /// What the person reads off and types, in inHg to the gauge's step.
    fn read(&mut self, true_pa: f64) -> Result<(Finite, Option<String>), DemoError> {
        let shown = true_pa + self.error_pa + self.noise.sample(&mut self.random);
        let step = self.step_pa / inches_of_mercury(1.0).get::<pascal>();
        let steps = (shown / self.step_pa).round();
        // To the hundredth: what is typed and what is stored are the same number.
        let inhg = (steps * step * 100.0).round() / 100.0;
        let pressure_pa = inches_of_mercury(inhg).get::<pascal>();
        Ok((finite(pressure_pa)?, Some(format!("{inhg} inHg"))))
    }
}

fn finite(value: f64) -> Result<Finite, DemoError> {
    Finite::try_from(value).map_err(|error| DemoError::Diagnosis(error.into()))
}
