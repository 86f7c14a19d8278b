//! Hazards in words.

use model::caution::Hazard;

/// The signal word, after ANSI Z535.
pub(crate) fn signal(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::HighVoltage | Hazard::RaisedWheels => "DANGER",
        Hazard::HotOil
        | Hazard::RetainedSprings
        | Hazard::CompressedAir
        | Hazard::Solvent
        | Hazard::Chips
        | Hazard::RoadTest => "WARNING",
        Hazard::VacuumPump => "CAUTION",
    }
}

/// What a hazard is called.
pub(crate) fn hazard_title(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::HighVoltage => "High voltage of a hybrid",
        Hazard::HotOil => "Hot oil under pressure",
        Hazard::RetainedSprings => "Springs under load",
        Hazard::CompressedAir => "Compressed air, flying parts",
        Hazard::Solvent => "Cleaning solvent",
        Hazard::VacuumPump => "Vacuum pump",
        Hazard::Chips => "Chips and sharp edges",
        Hazard::RaisedWheels => "Raised wheels, turning parts",
        Hazard::RoadTest => "Gauges on the road",
    }
}

/// The caution in one line.
pub(crate) fn hazard_short(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::HighVoltage => "Isolated and proved dead by a trained person.",
        Hazard::HotOil => "Hoses, eyes, skin.",
        Hazard::RetainedSprings => "Hold the plug, mind your eyes.",
        Hazard::CompressedAir => "Eyes, flying parts, pressure set low.",
        Hazard::Solvent => "Fresh air, no flame, gloves.",
        Hazard::VacuumPump => "No solvent in, outlet away from people.",
        Hazard::Chips => "Eyes, hands off edges, no chip left in a passage.",
        Hazard::RaisedWheels => "Stands, chocks, nobody near what turns.",
        Hazard::RoadTest => "One drives, another reads.",
    }
}
