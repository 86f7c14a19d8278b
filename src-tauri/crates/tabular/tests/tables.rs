//! Tables as spreadsheets and loggers write them, and files that mean harm.
#![allow(clippy::unwrap_used)]

use proptest::prelude::*;
use tabular::{Decimal, Delimiter, Encoding, Form, Limits, Style, TableError, Writer, guess, read};

const PLAIN: Form = Form {
    encoding: Encoding::Utf8,
    delimiter: Delimiter::Comma,
    decimal: Decimal::Point,
    header: false,
};

fn cells(bytes: &[u8], form: &Form) -> Vec<Vec<String>> {
    let table = read(bytes, form, &Limits::default()).unwrap();
    table.rows.into_iter().map(|row| row.cells).collect()
}

fn error(bytes: &[u8]) -> TableError {
    read(bytes, &PLAIN, &Limits::default()).unwrap_err()
}

#[test]
fn the_examples_of_rfc_4180_section_2() {
    for (text, rows) in [
        (
            "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
            vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]],
        ),
        (
            "aaa,bbb,ccc\r\nzzz,yyy,xxx",
            vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]],
        ),
        (
            "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx",
            vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]],
        ),
        (
            "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
            vec![vec!["aaa", "b\r\nbb", "ccc"], vec!["zzz", "yyy", "xxx"]],
        ),
        (
            "\"aaa\",\"b\"\"bb\",\"ccc\"",
            vec![vec!["aaa", "b\"bb", "ccc"]],
        ),
    ] {
        assert_eq!(cells(text.as_bytes(), &PLAIN), rows);
    }
}

#[test]
fn a_logger_with_semicolons_and_decimal_commas_is_told() {
    let text = "Zeit;Unterdruck [kPa]\r\n10:00:01;70,5\r\n10:00:02;70,4\r\n";
    let form = guess(text.as_bytes());
    assert_eq!(
        form,
        Form {
            delimiter: Delimiter::Semicolon,
            decimal: Decimal::Comma,
            header: true,
            ..PLAIN
        }
    );
    let tabbed = "t\tp\r\n1\t70,5\r\n2\t71,0\r\n";
    let form = guess(tabbed.as_bytes());
    assert_eq!(
        (form.delimiter, form.decimal),
        (Delimiter::Tab, Decimal::Comma)
    );
    let plain = "time,vacuum (inHg)\n1,18.5\n2,18.4\n";
    assert_eq!(
        guess(plain.as_bytes()),
        Form {
            header: true,
            ..PLAIN
        }
    );
    assert_eq!(guess(b"18.5\n18.4\n"), PLAIN);
}

#[test]
fn encodings_are_told_by_their_mark_or_by_what_can_be() {
    let text = "Prüfpunkt,°C\r\nrechts,20\r\n";
    let marked: Vec<u8> = "\u{feff}".bytes().chain(text.bytes()).collect();
    let wide = |bytes: fn(u16) -> [u8; 2]| -> Vec<u8> {
        "\u{feff}"
            .encode_utf16()
            .chain(text.encode_utf16())
            .flat_map(bytes)
            .collect()
    };
    let old: Vec<u8> = text
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    for (bytes, encoding) in [
        (text.as_bytes().to_vec(), Encoding::Utf8),
        (marked, Encoding::Utf8),
        (wide(u16::to_le_bytes), Encoding::Utf16),
        (wide(u16::to_be_bytes), Encoding::Utf16),
        (old, Encoding::Windows1252),
    ] {
        let form = guess(&bytes);
        assert_eq!(form.encoding, encoding);
        let table = read(&bytes, &form, &Limits::default()).unwrap();
        assert_eq!(table.header.unwrap(), ["Prüfpunkt", "°C"]);
        assert_eq!(table.rows[0].cells, ["rechts", "20"]);
    }
}

#[test]
fn rows_are_told_by_the_line_on_which_they_begin() {
    let text = "a,b\r\n\r\n\"one\r\ntwo\",3\r\n\n4,5\r6,7";
    let table = read(text.as_bytes(), &PLAIN, &Limits::default()).unwrap();
    let lines: Vec<_> = table.rows.iter().map(|row| row.line).collect();
    assert_eq!(lines, [1, 3, 6, 7]);
    assert_eq!(table.rows[2].cells, ["4", "5"]);
}

#[test]
fn files_that_mean_harm_are_refused_by_name() {
    assert_eq!(error(b""), TableError::Empty);
    assert_eq!(error(b"\r\n\r\n\n"), TableError::Empty);
    assert_eq!(
        error(b"a,b\n1,\"2\n3,4\n"),
        TableError::UnclosedQuote { line: 2 }
    );
    assert_eq!(error(b"a\n1\0,2\n"), TableError::NotText { line: 2 });
    assert_eq!(
        error(b"a\nb\n\xff\xfe\xfd\n"),
        TableError::NotText { line: 3 }
    );
    let wide = ",".repeat(1_000_000);
    assert_eq!(
        error(wide.as_bytes()),
        TableError::TooManyColumns { line: 1, most: 200 }
    );
    let long = format!("a\n{}\n", "x".repeat(1 << 20));
    assert_eq!(
        error(long.as_bytes()),
        TableError::CellTooLong {
            line: 2,
            most: 4096
        }
    );
    let quoted = format!("\"{}\"", "\n".repeat(1 << 20));
    assert_eq!(
        error(quoted.as_bytes()),
        TableError::CellTooLong {
            line: 1,
            most: 4096
        }
    );
    let many = "1\n".repeat(1_000_000);
    assert_eq!(
        error(many.as_bytes()),
        TableError::TooManyRows { most: 1_001 }
    );
    let huge = vec![b'x'; (4 << 20) + 1];
    assert_eq!(error(&huge), TableError::TooLarge { most: 4 << 20 });
    let odd = [0xff, 0xfe, 0x41];
    let form = guess(&odd);
    assert_eq!(
        read(&odd, &form, &Limits::default()).unwrap_err(),
        TableError::NotText { line: 1 }
    );
}

fn style() -> impl Strategy<Value = Style> {
    (any::<bool>(), any::<bool>()).prop_map(|(byte_order_mark, comma)| Style {
        byte_order_mark,
        decimal: if comma {
            Decimal::Comma
        } else {
            Decimal::Point
        },
    })
}

proptest! {
    #[test]
    fn whatever_is_written_is_read_again(
        rows in prop::collection::vec(("[^\0\u{feff}]{0,12}", "[=+@'\"-]{0,2}[a-z,;\"\r\n]{1,6}", -1e9..1e9_f64), 1..8),
        style in style(),
    ) {
        let mut writer = Writer::new(style);
        for (any, risky, number) in &rows {
            // Space around a cell is not kept, by design.
            writer.text(any.trim_matches(' '));
            writer.text(risky);
            writer.number(Some(*number));
            writer.end_row().unwrap();
        }
        let bytes = writer.finish().unwrap();
        let form = Form {
            delimiter: if style.decimal == Decimal::Comma { Delimiter::Semicolon } else { Delimiter::Comma },
            decimal: style.decimal,
            ..PLAIN
        };
        let table = read(&bytes, &form, &Limits::default()).unwrap();
        prop_assert_eq!(table.rows.len(), rows.len());
        for (row, (any, risky, number)) in table.rows.iter().zip(&rows) {
            prop_assert_eq!(row.cell(0), any.trim_matches(' '));
            prop_assert_eq!(row.cell(1), risky);
            prop_assert_eq!(tabular::parse(row.cell(2), style.decimal).unwrap().0, *number);
        }
    }

    #[test]
    fn no_bytes_panic_and_no_row_is_lost(
        bytes in prop_oneof![
            prop::collection::vec(any::<u8>(), 0..200),
            "[a\"',;\t\r\n1.-]{0,120}".prop_map(String::into_bytes),
        ],
    ) {
        let form = guess(&bytes);
        if let Ok(table) = read(&bytes, &form, &Limits::default()) {
            let rows = table.rows.len() + usize::from(table.header.is_some());
            prop_assert!(rows > 0);
            // The count by an independent reading of the same text.
            if form.encoding == Encoding::Utf8 {
                let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
                let mut reader = csv::ReaderBuilder::new()
                    .delimiter(form.delimiter.byte())
                    .has_headers(false)
                    .flexible(true)
                    .from_reader(text);
                prop_assert_eq!(reader.records().count(), rows);
            }
        }
    }
}
