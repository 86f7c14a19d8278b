//! Pressures of a circuit whose valve's true state is known: at a tap, and on the hot-oil bench.

use diagnosis::valve::{self, Gap, SealState, Wear};
use model::Kind;
use model::oil_check::{LineDirection, OilCheck, OilCheckFigures, OilPoint};
use model::tap_reading::{TapFigures, TapReading};
use model::unit::{BoreProfile, Tap, TestPoint};
use physics::regulator::{Branch, Circuit, Regulator};
use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::micrometer;
use uom::si::pressure::{pascal, psi};
use uom::si::ratio::ratio;

use super::DemoError;
use super::instrument::finite;
use super::source::{OilCheckSource, Source, TapSource, TestSource};
use super::write::Shop;

const ZERO_CELSIUS_K: f64 = 273.15;

impl Shop {
    /// A reading at a tap: what the true valve holds there, as its gauge shows it. The engine
    /// shakes the valve, so friction holds nothing.
    pub(super) fn read_tap(&mut self, source: &TapSource, all: &Source) -> Result<(), DemoError> {
        let by = &source.by;
        let temperature_k = source.oil_c + ZERO_CELSIUS_K;
        let line_pa = pascals(source.line_psi);
        let circuit = self.true_circuit(by, &source.bore_as_in, all, (temperature_k, 1.0))?;
        let balance = circuit.solve(Pressure::new::<pascal>(line_pa), Branch::Frictionless)?;
        let tap: Tap = self.read(by, &source.tap, Kind::Tap)?;
        if tap.node != model::unit::Node::Feed {
            return Err(DemoError::Profile(format!("{} isn't at feed", tap.name)));
        }
        let seed = format!("{} {}", source.job, source.at);
        let mut gauge = self.in_hand(by, &source.gauge, all, &seed)?;
        let mut line_gauge = self.in_hand(by, &source.line_gauge, all, &seed)?;
        let reading = TapReading {
            tap: self.model_id(&source.tap)?,
            figures: TapFigures {
                occasion: source.occasion,
                place: source.place,
                pressure_pa: gauge.read(balance.feed.get::<pascal>())?,
                oil_temperature_k: Some(finite(temperature_k)?),
                line_pa: Some(line_gauge.read(line_pa)?),
                command: source.command.clone(),
                load: source.load.clone(),
                gauge: Some(self.model_id(&source.gauge)?),
                line_gauge: Some(self.model_id(&source.line_gauge)?),
                note: source.note.clone(),
            },
        };
        let job = source.job.trim_start_matches('@');
        self.write(by, source.at, job, Kind::TapReading, &reading)
    }

    /// A hot-oil check: line raised and lowered step by step, friction holding the spool back.
    pub(super) fn check_with_oil(
        &mut self,
        source: &OilCheckSource,
        all: &Source,
    ) -> Result<(), DemoError> {
        let by = &source.by;
        let mut thermometer = self.in_hand(by, &source.thermometer, all, &source.subject)?;
        let mut feed_gauge = self.in_hand(by, &source.feed_gauge, all, &source.subject)?;
        let mut line_gauge = self.in_hand(by, &source.line_gauge, all, &source.subject)?;
        let temperature_k = source.oil_c + ZERO_CELSIUS_K;
        let hot = (temperature_k, source.friction_acting);
        let circuit = self.true_circuit(by, &source.bore_as_in, all, hot)?;
        let rising = source.rising_psi.iter();
        let falling = source.falling_psi.iter();
        let steps = rising
            .map(|line| (line, LineDirection::Rising, Branch::Rising))
            .chain(falling.map(|line| (line, LineDirection::Falling, Branch::Falling)));
        let mut points = Vec::new();
        for (line, direction, branch) in steps {
            let line_pa = pascals(*line);
            let balance = circuit.solve(Pressure::new::<pascal>(line_pa), branch)?;
            points.push(OilPoint {
                line_pa: line_gauge.read(line_pa)?,
                feed_pa: feed_gauge.read(balance.feed.get::<pascal>())?,
                direction,
            });
        }
        let check = OilCheck {
            job: self.model_id(&source.job)?,
            bore: self.model_id(&source.bore)?,
            repair: Some(self.model_id(&source.repair)?),
            figures: OilCheckFigures {
                oil_temperature_k: Some(thermometer.read(temperature_k)?),
                other_oil: false,
                fluid: String::new(),
                feed_gauge: Some(self.model_id(&source.feed_gauge)?),
                line_gauge: Some(self.model_id(&source.line_gauge)?),
                thermometer: Some(self.model_id(&source.thermometer)?),
                points,
                note: source.note.clone(),
            },
        };
        self.write(by, source.at, &source.subject, Kind::OilCheck, &check)
    }

    /// The valve as it truly is in a test, in oil of a temperature, K, with a part of its friction.
    fn true_circuit(
        &mut self,
        by: &str,
        test: &str,
        all: &Source,
        (temperature_k, friction_acting): (f64, f64),
    ) -> Result<Circuit, DemoError> {
        let name = test.trim_start_matches('@');
        let found = all.test.iter().find(|known| known.subject == name);
        let truth = found.ok_or_else(|| DemoError::Unknown(test.to_owned()))?;
        let (job, bore) = (self.model_id(&truth.job)?, self.model_id(&truth.bore)?);
        let id = self.model_id(test)?;
        let (profile, _) = api::profile_of_test(self.crew.store(by)?, job, bore, id)
            .map_err(|error| DemoError::Profile(error.to_string()))?;
        let point: TestPoint = self.read(by, &truth.test_point, Kind::TestPoint)?;
        let mut regulator = regulator_of(&profile, &point, truth, temperature_k)?;
        regulator.friction *= friction_acting;
        let oil = valve::oil_at(valve::unit_oil(&profile)?, temperature_k)?;
        Ok(regulator.circuit(&oil)?)
    }
}

/// The tested lands have the true clearance; the others, which nobody tests, lie midway between
/// new and that.
fn regulator_of(
    profile: &BoreProfile,
    point: &TestPoint,
    truth: &TestSource,
    temperature_k: f64,
) -> Result<Regulator, DemoError> {
    let gap = Length::new::<micrometer>(truth.clearance_um / 2.0);
    let off_centre = truth.off_centre.first().copied().unwrap_or_default();
    let state = |gap| SealState {
        gap,
        eccentricity: Ratio::new::<ratio>(off_centre),
    };
    let wear = Wear {
        tested_lands: &point.isolates,
        tested: state(Gap::Of(gap)),
        untested: state(Gap::Between(gap)),
    };
    Ok(valve::regulator(profile, &wear, temperature_k)?)
}

fn pascals(of_psi: f64) -> f64 {
    Pressure::new::<psi>(of_psi).get::<pascal>()
}
