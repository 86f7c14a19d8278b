//! What people typed, made harmless on paper: escaped by the template, its direction kept to
//! itself, and characters that only steer the display shown as such instead of obeyed.

use maud::{Markup, Render, html};

/// Stands where a steering character was, so that nothing goes missing unseen.
const MARK: char = '\u{fffd}';

/// Text without characters that turn, hide or overprint what stands around them (Unicode TR 36).
pub(crate) fn plain(text: &str) -> String {
    text.replace("\r\n", "\n")
        .chars()
        .map(|c| match c {
            '\n' | '\t' => c,
            '\r' | '\u{2028}' | '\u{2029}' => '\n',
            '\u{061c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' => MARK,
            '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' => MARK,
            '\u{e0000}'..='\u{e007f}' => MARK,
            c if c.is_control() => MARK,
            c => c,
        })
        .collect()
}

/// On one line.
pub(crate) fn line(text: &str) -> String {
    plain(text).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a person typed.
pub(crate) struct Said<'a>(pub &'a str);

impl Render for Said<'_> {
    fn render(&self) -> Markup {
        html! { bdi class="said" { (plain(self.0)) } }
    }
}

/// On one line and at most so many letters, with a mark where something was cut off.
pub(crate) fn cut(text: &str, letters: usize) -> String {
    let text = line(text);
    if text.chars().count() <= letters {
        return text;
    }
    let kept: String = text.chars().take(letters).collect();
    format!("{} […]", kept.trim_end())
}

/// The first eight digits of an id or a digest, with the whole of it for those who check.
pub(crate) fn short(id: &str) -> String {
    id.chars()
        .filter(|c| c.is_ascii_alphanumeric())
        .take(8)
        .collect()
}

/// The last twelve digits of a record's id. Its head is a time, so records of one moment share it.
pub(crate) fn record(id: model::Id) -> String {
    let whole = id.simple().to_string();
    whole.get(20..).unwrap_or(&whole).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steering_characters_are_shown_and_not_obeyed() {
        let turned = "limit \u{202e}5.71\u{202c} inHg\u{200f}\u{0007}";
        assert_eq!(
            plain(turned),
            "limit \u{fffd}5.71\u{fffd} inHg\u{fffd}\u{fffd}"
        );
        assert_eq!(plain("a\r\nb\u{2028}c\td"), "a\nb\nc\td");
        assert_eq!(line(" a \n\n b "), "a b");
        assert_eq!(cut(" a \n b cd", 4), "a b […]");
        assert_eq!(cut("a b cd", 6), "a b cd");
    }

    #[test]
    fn what_is_typed_is_escaped() {
        let said = Said("<script>\"x\"</script> ]]> & 'y'")
            .render()
            .into_string();
        assert_eq!(
            said,
            "<bdi class=\"said\">&lt;script&gt;&quot;x&quot;&lt;/script&gt; ]]&gt; &amp; 'y'</bdi>"
        );
    }
}
