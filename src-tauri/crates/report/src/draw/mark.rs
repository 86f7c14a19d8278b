//! The mark of a judgement: each has an outline, a sign and a filling of its own.

use maud::{Markup, html};

use super::hatch::{Area, hatch};
use crate::words::Mark;

/// Draws a mark. The word stands beside it, so it is silent to a screen reader.
pub(crate) fn mark(mark: Mark) -> Markup {
    let (class, outline) = match mark {
        Mark::Within => (
            "within",
            html! {
                circle cx="20" cy="20" r="17" class="edge" {}
                path d="M11.5 20.5l6 6L28.5 14.5" class="sign" {}
            },
        ),
        Mark::Close => (
            "close",
            html! {
                path d=(half_diamond()) class="fill" {}
                path d="M20 2.5L37.5 20 20 37.5 2.5 20z" class="edge" {}
                path d="M4 20H36" class="edge dash" {}
                path d="M20 13.5V26.5" class="sign" {}
            },
        ),
        Mark::Outside => {
            let area = Area {
                x: 3.0,
                y: 3.0,
                width: 34.0,
                height: 34.0,
            };
            (
                "outside",
                html! {
                    path d=(hatch(area, 5.0, false)) class="fill" {}
                    rect x="3" y="3" width="34" height="34" class="edge" {}
                    path d="M12 12l16 16M28 12L12 28" class="halo" {}
                    path d="M12 12l16 16M28 12L12 28" class="sign" {}
                },
            )
        }
        Mark::NotJudged => (
            "not-judged",
            html! {
                circle cx="20" cy="20" r="17" class="edge dots" {}
                path d="M14 20H26" class="sign" {}
            },
        ),
    };
    html! {
        svg class={ "mark " (class) } viewBox="0 0 40 40" width="40" height="40" aria-hidden="true" {
            (outline)
        }
    }
}

/// Upright lines in the upper half of the diamond.
fn half_diamond() -> String {
    (1..7)
        .map(|i| {
            let x = 2.5 + 5.0 * f64::from(i);
            let top = 2.5 + (x - 20.0).abs();
            format!("M{} {}V20", super::c(x), super::c(top))
        })
        .collect()
}
