//! What a leak does to the regulated pressure.

use diagnosis::judgement::{Consequence, ConsequenceAnswer, OperatingPoint, RegulationState, Span};
use maud::{Markup, html};

use crate::describe::TestReport;
use crate::draw::{Curve, Line, PressurePlot};
use crate::quantity::{Quantity, Shown};
use crate::words;

/// The part of a test's section.
pub(super) fn section(test: &TestReport, shown: &Shown) -> Markup {
    answer(test.judgement.consequence.as_ref(), shown)
}

/// What a leak does, or why that can't be told.
pub(super) fn answer(answer: Option<&ConsequenceAnswer>, shown: &Shown) -> Markup {
    match answer {
        None => html! {},
        Some(ConsequenceAnswer::Withheld { reason }) => html! {
            p class="refusal" {
                strong { "No pressure can be predicted. " } (words::consequence_refusal(*reason))
            }
        },
        Some(ConsequenceAnswer::Computed(consequence)) => computed(consequence, shown),
    }
}

fn computed(it: &Consequence, shown: &Shown) -> Markup {
    let plot = PressurePlot {
        shown,
        title: "Regulated pressure against line pressure, as new and as measured".to_owned(),
        curves: vec![
            Curve {
                line: Line::AsMeasured,
                label: "■ as measured",
                points: measured(it),
                band: true,
            },
            Curve {
                line: Line::AsNew,
                label: "as new",
                points: as_new(it),
                band: false,
            },
        ],
        limits: vec![*it.specified_low_pa, *it.specified_high_pa],
        measured: Vec::new(),
    };
    html! {
        h4 { "What the leak does, oil at " (shown.both(*it.oil_temperature_k, Quantity::Temperature)) }
        (table(it, shown, "as measured"))
        figure tabindex="0" {
            (plot.draw())
            figcaption {
                "Predicted by calculation, not measured. Line with squares: as measured, likely; its band holds "
                (sources(it)) ". Dotted: the same valve as new. Dashed: specified."
            }
        }
    }
}

/// What the band holds, as a list in a sentence.
pub(super) fn sources(it: &Consequence) -> String {
    let names: Vec<_> = it
        .band_from
        .iter()
        .map(|&source| words::band(source))
        .collect();
    match names.as_slice() {
        [] => "nothing that is unknown".to_owned(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// The points of a prediction.
pub(super) fn measured(it: &Consequence) -> Vec<(f64, [f64; 3])> {
    let point = |at: &diagnosis::judgement::CurvePoint| (*at.line_pa, three(&at.measured_feed_pa));
    it.curve.iter().map(point).collect()
}

/// The points of the valve as new.
pub(super) fn as_new(it: &Consequence) -> Vec<(f64, [f64; 3])> {
    let point = |at: &diagnosis::judgement::CurvePoint| (*at.line_pa, three(&at.new_feed_pa));
    it.curve.iter().map(point).collect()
}

fn three(span: &Span) -> [f64; 3] {
    [*span.low, *span.likely, *span.high]
}

/// Both working points.
pub(super) fn table(it: &Consequence, shown: &Shown, state: &str) -> Markup {
    html! {
        table class="points" tabindex="0" {
            caption {
                "Regulated pressure " (state) "; meant to hold " (shown.both(*it.setpoint_pa, Quantity::Pressure))
                ", specified " (shown.interval(*it.specified_low_pa, *it.specified_high_pa, Quantity::Pressure))
            }
            thead {
                tr {
                    th scope="col" { "Where" }
                    th scope="col" class="number" { "As new" }
                    th scope="col" class="number" { (capital(state)) ", likely" }
                    th scope="col" class="number" { "Interval" }
                    th scope="col" class="number" { "Shift, likely" }
                    th scope="col" class="number" { "Its interval" }
                    th scope="col" { "Which says" }
                }
            }
            tbody {
                (point("Hot idle", &it.idle, shown))
                (point("Highest line pressure", &it.highest_line, shown))
            }
        }
        p class="beside" {
            "Oil through the tested seals at the highest line: "
            (shown.value(*it.leak_flow_m3_s.likely, Quantity::LeakFlow)) ", "
            (shown.interval(*it.leak_flow_m3_s.low, *it.leak_flow_m3_s.high, Quantity::LeakFlow))
            ". Viscosity of the oil there: " (shown.value(*it.oil_viscosity_pa_s, Quantity::Viscosity)) "."
        }
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

fn point(place: &str, it: &OperatingPoint, shown: &Shown) -> Markup {
    let says = [
        (it.measured_state != RegulationState::Regulating)
            .then(|| words::measured_state(it.measured_state)),
        words::new_state(it.new_state),
        it.against_specification.map(words::specification),
        words::worst_state(it.worst_state).filter(|_| it.worst_state != it.measured_state),
    ];
    html! {
        tr {
            th scope="row" {
                (place) br; span class="when" { (shown.value(*it.line_pa, Quantity::Pressure)) " line" }
            }
            td class="number" { (shown.value(*it.new_feed_pa.likely, Quantity::Pressure)) }
            td class="number" { strong { (shown.value(*it.measured_feed_pa.likely, Quantity::Pressure)) } }
            td class="number" {
                (shown.interval(*it.measured_feed_pa.low, *it.measured_feed_pa.high, Quantity::Pressure))
            }
            @if let Some(shift) = &it.shift_pa {
                td class="number" { strong { (shown.signed(*shift.likely, Quantity::Pressure)) } }
                td class="number" { (shown.signed_interval(*shift.low, *shift.high, Quantity::Pressure)) }
            } @else {
                td class="number" { "none" }
                td class="number" { "none" }
            }
            td { @for (i, say) in says.into_iter().flatten().enumerate() { @if i > 0 { br; } (say) } }
        }
    }
}
