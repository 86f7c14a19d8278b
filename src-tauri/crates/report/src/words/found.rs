//! What a check found, line by line: what it is called and what was entered.

use model::Finite;
use model::bench::{Instrument, InstrumentKind};
use model::inspection::{
    Condition, Diameters, Found, Hold, LightSeen, MarkDepth, MarkedSurface, Movement, ScreenState,
    SolenoidCheck, SpringCheck, TrainState,
};

use crate::quantity::{Quantity, Shown};
use crate::text::line;

/// One line of a check.
pub(crate) type Line = (String, String);

/// Everything that was entered.
pub(crate) fn found(found: &Found, shown: &Shown) -> Vec<Line> {
    let mut lines = Lines {
        shown,
        lines: Vec::new(),
    };
    match found {
        Found::ValveTrain(it) => lines.say("How it lay", train(it.state)),
        Found::FreeMovement(it) => {
            for (name, tried) in [
                ("Washed and dry", it.dry),
                ("With oil", it.wet),
                ("Body bolted to its torque", it.bolted),
            ] {
                lines.say(name, tried.map_or("not tried", movement));
            }
            lines.value("Force that moves it", it.friction_n, Quantity::Force);
        }
        Found::WearMarks(it) => {
            if it.marks.is_empty() {
                lines.say("Marks", "none found");
            }
            for mark in &it.marks {
                let place = mark.position_m.map_or_else(String::new, |at| {
                    format!(", at {}", shown.value(*at, Quantity::Length))
                });
                lines.say(surface(mark.on), format!("{}{place}", depth(mark.depth)));
            }
        }
        Found::Light(it) => {
            for land in &it.lands {
                lines.say(line(&land.land), light(land.seen));
            }
        }
        Found::Wiggle(it) => {
            lines.say("Play across the bore", felt(it.feel));
            lines.value("Play, measured", it.play_m, Quantity::Clearance);
        }
        Found::Diameters(it) => lines.diameters(it),
        Found::Spring(it) => lines.spring(it),
        Found::OrificeBore(it) => {
            lines.value("Largest pin that goes", it.go_m, Quantity::Length);
            lines.value("Smallest pin that doesn’t", it.no_go_m, Quantity::Length);
        }
        Found::EndPlug(it) => {
            lines.say("Plug and its seat", condition(it.plug));
            lines.say("Its seal", it.seal.map_or("none", condition));
        }
        Found::Flatness(it) => {
            lines.say("Face", line(&it.face));
            lines.value("Widest gap", Some(it.gap_m), Quantity::Clearance);
            lines.value("Widest that is allowed", it.limit_m, Quantity::Clearance);
            lines.text("Who says so", &it.source);
        }
        Found::PlateAndBalls(it) => {
            lines.say("Plate", condition(it.plate));
            lines.say("Seats of the balls", condition(it.seats));
            for (name, count) in [
                ("Balls that the service information shows", it.balls_shown),
                ("Balls found", it.balls_found),
            ] {
                if let Some(count) = count {
                    lines.say(name, count.to_string());
                }
            }
        }
        Found::CrossPassages(it) => {
            lines.say("Between", line(&it.between));
            lines.say("How it holds", hold(it.hold));
            lines.value("Vacuum that it held", it.vacuum_pa, Quantity::Vacuum);
        }
        Found::FeedScreens(it) => lines.say("Screens", screens(it.state)),
        Found::Solenoid(it) => lines.solenoid(it),
        Found::ClutchAir(it) => {
            lines.say("Clutch", line(&it.clutch));
            lines.say("How it holds", hold(it.hold));
            lines.value("Air pressure used", it.pressure_pa, Quantity::Pressure);
            if let Some(watched) = it.watched_s {
                lines.say("Watched for", format!("{} s", shown.number(*watched, 0)));
            }
        }
    }
    lines.lines
}

struct Lines<'a> {
    shown: &'a Shown,
    lines: Vec<Line>,
}

impl Lines<'_> {
    fn say(&mut self, name: impl Into<String>, said: impl Into<String>) {
        self.lines.push((name.into(), said.into()));
    }

    fn text(&mut self, name: &str, said: &str) {
        if !said.trim().is_empty() {
            self.say(name, line(said));
        }
    }

    fn value(&mut self, name: impl Into<String>, value: Option<Finite>, quantity: Quantity) {
        if let Some(value) = value {
            self.say(name, self.shown.both(*value, quantity));
        }
    }

    fn diameters(&mut self, it: &Diameters) {
        let way = |direction: Finite| format!("{}°", self.shown.number(direction.to_degrees(), 0));
        let bore: Vec<_> = it
            .bore
            .iter()
            .map(|at| {
                let depth = self.shown.value(*at.station_m, Quantity::Length);
                let name = format!("Bore, {depth} deep, {}", way(at.direction_rad));
                (name, at.diameter_m)
            })
            .collect();
        let valve: Vec<_> = it
            .valve
            .iter()
            .map(|at| {
                let name = format!("Land {}, {}", line(&at.land), way(at.direction_rad));
                (name, at.diameter_m)
            })
            .collect();
        for (name, diameter) in bore.into_iter().chain(valve) {
            self.value(name, Some(diameter), Quantity::Length);
        }
        match it.temperature_k {
            Some(_) => self.value(
                "Temperature of the parts",
                it.temperature_k,
                Quantity::Temperature,
            ),
            None => self.say("Temperature of the parts", "not entered, taken as 20 °C"),
        }
    }

    fn spring(&mut self, it: &SpringCheck) {
        self.value("Free length", it.free_length_m, Quantity::Length);
        for at in &it.loads {
            let height = self.shown.value(*at.height_m, Quantity::Length);
            self.value(
                format!("Load at {height}"),
                Some(at.load_n),
                Quantity::Force,
            );
        }
        self.value(
            "Height where the valve regulates",
            it.height_regulating_m,
            Quantity::Length,
        );
    }

    fn solenoid(&mut self, it: &SolenoidCheck) {
        self.say("Solenoid", line(&it.solenoid));
        for (name, ohm) in [
            ("Resistance", it.resistance_ohm),
            ("Least that is allowed", it.low_ohm),
            ("Most that is allowed", it.high_ohm),
        ] {
            self.value(name, ohm, Quantity::Resistance);
        }
        let temperature = Quantity::Temperature;
        self.value("Temperature of its coil", it.temperature_k, temperature);
        self.value("The limits hold at", it.limits_at_k, temperature);
        self.text("Who says so", &it.source);
        if let Some(shut) = it.shut {
            self.say("Shut, with no current", hold(shut));
        }
        if let Some(switches) = it.switches {
            self.say("Switches", if switches { "yes" } else { "no" });
        }
    }
}

/// An instrument with its limits of error, and when its calibration is due.
pub(crate) fn instrument(it: &Instrument, shown: &Shown) -> String {
    let quantity = match it.kind {
        InstrumentKind::VacuumGauge => Quantity::Vacuum,
        InstrumentKind::Barometer => Quantity::Barometer,
        InstrumentKind::Micrometer
        | InstrumentKind::BoreGauge
        | InstrumentKind::PinGauges
        | InstrumentKind::FeelerGauges => Quantity::Clearance,
        InstrumentKind::SpringTester => Quantity::Force,
        InstrumentKind::Thermometer => Quantity::Temperature,
        InstrumentKind::PressureGauge => Quantity::Pressure,
        InstrumentKind::Ohmmeter => Quantity::Resistance,
    };
    let due = it
        .calibration_due
        .map_or_else(String::new, |due| format!(", calibration due {due}"));
    format!(
        "{}, ±\u{a0}{}{due}",
        line(&it.name),
        shown.spread(*it.limits_of_error_si, quantity)
    )
}

fn train(state: TrainState) -> &'static str {
    match state {
        TrainState::AsShown => "as the service information shows it",
        TrainState::WrongWay => "something the wrong way round",
        TrainState::PartMissing => "something missing or broken",
        TrainState::NotKnown => "nothing to hold it against",
    }
}

fn movement(movement: Movement) -> &'static str {
    match movement {
        Movement::Free => "free",
        Movement::Drags => "drags",
        Movement::Sticks => "sticks",
    }
}

fn surface(surface: MarkedSurface) -> &'static str {
    match surface {
        MarkedSurface::Bore => "Mark on the bore",
        MarkedSurface::Valve => "Mark on the valve",
    }
}

fn depth(depth: MarkDepth) -> &'static str {
    match depth {
        MarkDepth::Seen => "seen, not felt",
        MarkDepth::Felt => "a nail feels it",
        MarkDepth::Caught => "a nail catches in it",
    }
}

fn light(seen: LightSeen) -> &'static str {
    match seen {
        LightSeen::None => "no light",
        LightSeen::Faint => "a thin line of light",
        LightSeen::Clear => "a clear gap of light",
    }
}

fn felt(feel: LightSeen) -> &'static str {
    match feel {
        LightSeen::None => "none",
        LightSeen::Faint => "slight",
        LightSeen::Clear => "clear",
    }
}

fn condition(condition: Condition) -> &'static str {
    match condition {
        Condition::Good => "good",
        Condition::Worn => "worn",
        Condition::Damaged => "damaged",
        Condition::Missing => "missing",
    }
}

fn hold(hold: Hold) -> &'static str {
    match hold {
        Hold::Holds => "holds",
        Hold::LosesSlowly => "loses slowly",
        Hold::DoesNotHold => "doesn’t hold",
    }
}

fn screens(state: ScreenState) -> &'static str {
    match state {
        ScreenState::Clean => "clean and whole",
        ScreenState::Debris => "something on them",
        ScreenState::Torn => "torn or pushed in",
        ScreenState::Missing => "missing",
    }
}
