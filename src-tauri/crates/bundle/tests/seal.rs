//! Files sealed with a passphrase: opened again, refused when anything about them is off.

use std::io::Write;
use std::iter;

use age::{Encryptor, scrypt};
use bundle::{Bound, BundleError, Limits, Passphrase, SecretString, is_sealed, read, seal, unseal};
use proptest::prelude::*;

/// What one chunk of the payload holds (<https://c2sp.org/age>, "Payload").
const CHUNK: usize = 64 << 10;
/// A nonce before the chunks; a tag after each.
const NONCE: usize = 16;
const TAG: usize = 16;

fn passphrase(text: &str) -> Passphrase {
    Passphrase::new(&SecretString::from(text))
}

/// Sealed by the same library, so cheaply that it can be opened thousands of times.
fn sealed_at(work: u8, file: &[u8], text: &str) -> Vec<u8> {
    let mut recipient = scrypt::Recipient::new(SecretString::from(text));
    recipient.set_work_factor(work);
    let encryptor = Encryptor::with_recipients(iter::once(&recipient as _)).unwrap();
    let mut writer = encryptor.wrap_output(Vec::new()).unwrap();
    writer.write_all(file).unwrap();
    writer.finish().unwrap()
}

const WORDS: &str = "quiet otter brass";

fn cheap(file: &[u8]) -> Vec<u8> {
    sealed_at(1, file, WORDS)
}

fn open(file: &[u8]) -> Result<Vec<u8>, BundleError> {
    unseal(file, &passphrase(WORDS), &Limits::default())
}

fn header_length(sealed: &[u8]) -> usize {
    let mac = sealed.windows(5).position(|at| at == b"\n--- ").unwrap() + 1;
    mac + sealed[mac..].iter().position(|&b| b == b'\n').unwrap() + 1
}

fn with_work(sealed: &[u8], work: &str) -> Vec<u8> {
    let end = sealed[22..].iter().position(|&b| b == b'\n').unwrap() + 22;
    let start = sealed[..end].iter().rposition(|&b| b == b' ').unwrap() + 1;
    [&sealed[..start], work.as_bytes(), &sealed[end..]].concat()
}

#[test]
fn what_was_sealed_comes_out_to_the_byte_and_nothing_of_it_shows() {
    let file = b"records of a shop, of which nobody should read a word".repeat(9);
    let sealed = seal(&file, &passphrase(WORDS)).unwrap();
    assert!(is_sealed(&sealed) && !is_sealed(&file));
    assert!(!sealed.windows(8).any(|at| file.windows(8).any(|b| at == b)));
    assert_eq!(open(&sealed).unwrap(), file);
    // 2^16 is what is written.
    assert!(with_work(&sealed, "16") == sealed);
    // Salt and key are drawn anew each time.
    assert_ne!(seal(&file, &passphrase(WORDS)).unwrap(), sealed);
}

#[test]
fn the_reader_of_bundles_says_that_a_file_is_sealed() {
    let sealed = cheap(b"PK\x03\x04");
    assert!(matches!(read(&sealed), Err(BundleError::Sealed)));
    // Even if no more than its first line has arrived.
    assert!(matches!(read(&sealed[..30]), Err(BundleError::Sealed)));
}

#[test]
fn another_passphrase_is_told_as_such() {
    let sealed = cheap(b"PK");
    for wrong in [
        "quiet otter bras",
        "quiet otter  brass",
        "Quiet otter brass",
        "",
    ] {
        let error = unseal(&sealed, &passphrase(wrong), &Limits::default()).unwrap_err();
        assert!(matches!(error, BundleError::WrongPassphrase), "{error}");
    }
}

#[test]
fn another_keyboards_way_of_writing_the_same_letters_fits() {
    // Umlauts apart or in one, full-width Latin, a ligature, spaces around (UAX 15, NFKC).
    let sealed = seal(b"PK", &passphrase("Ölfilm dünn, find es")).unwrap();
    for same in [
        "  O\u{308}lfilm du\u{308}nn, find es\n",
        "\u{ff2f}\u{308}lfilm dünn, find es",
        "Ölfilm dünn,\u{a0}\u{fb01}nd es\u{3000}",
    ] {
        assert!(
            unseal(&sealed, &passphrase(same), &Limits::default()).is_ok(),
            "{same:?}"
        );
    }
}

#[test]
fn nothing_is_sealed_with_an_empty_or_short_passphrase() {
    for short in [
        "",
        "        ",
        "seven77",
        "   seven77   ",
        "\u{3000}\u{a0}\t\n    x",
    ] {
        let error = seal(b"PK", &passphrase(short)).unwrap_err();
        assert!(matches!(error, BundleError::ShortPassphrase), "{short:?}");
    }
    assert!(passphrase("eight888").is_long_enough());
    // Counted as they are meant: seven letters, four of them of two code points when typed.
    assert!(!passphrase("o\u{308}o\u{308}o\u{308}o\u{308}abc").is_long_enough());
}

#[test]
fn a_passphrase_shows_itself_to_nobody() {
    let shown = format!("{:?}", passphrase(WORDS));
    assert!(!shown.contains("otter"), "{shown}");
}

#[test]
fn a_file_cut_short_anywhere_is_refused() {
    let sealed = cheap(b"PK and some more");
    for length in 0..sealed.len() {
        let error = open(&sealed[..length]).unwrap_err();
        match error {
            BundleError::NotABundle => assert!(length < 22, "{length}"),
            BundleError::BrokenSeal => {}
            other => panic!("cut at {length}: {other}"),
        }
    }
    // Also between chunks, where each of those that are left is whole.
    let long = cheap(&vec![7; 3 * CHUNK]);
    let start = header_length(&long) + NONCE;
    for chunks in 0..3 {
        for off in [-1, 0, 1, 16, 17] {
            let length = (start + chunks * (CHUNK + TAG)).strict_add_signed(off);
            let error = open(&long[..length]).unwrap_err();
            assert!(
                matches!(error, BundleError::BrokenSeal),
                "{chunks} {off}: {error}"
            );
        }
    }
}

#[test]
fn whichever_byte_is_changed_the_file_is_refused() {
    let sealed = cheap(b"PK and some more");
    for at in 0..sealed.len() {
        for flip in [0x01, 0x20, 0x80] {
            let mut changed = sealed.clone();
            changed[at] ^= flip;
            let error = open(&changed).unwrap_err();
            let told = match at {
                0..22 => matches!(error, BundleError::NotABundle),
                // The key is sealed: that it was changed and that it doesn't fit look alike.
                _ if at < header_length(&sealed) => matches!(
                    error,
                    BundleError::WrongPassphrase | BundleError::BrokenSeal
                ),
                _ => matches!(error, BundleError::BrokenSeal),
            };
            assert!(told, "byte {at} ^ {flip:#x}: {error}");
        }
    }
}

#[test]
fn chunks_in_another_order_twice_or_followed_by_more_are_refused() {
    let file: Vec<u8> = (0..3 * CHUNK + 5).map(|i| (i / CHUNK) as u8).collect();
    let sealed = cheap(&file);
    let (head, payload) = sealed.split_at(header_length(&sealed) + NONCE);
    let chunk = |i: usize| &payload[i * (CHUNK + TAG)..(i + 1) * (CHUNK + TAG)];
    let last = &payload[3 * (CHUNK + TAG)..];
    assert_eq!(
        open(&[head, chunk(0), chunk(1), chunk(2), last].concat()).unwrap(),
        file
    );
    for other in [
        vec![head, chunk(1), chunk(0), chunk(2), last],
        vec![head, chunk(0), chunk(0), chunk(1), last],
        vec![head, chunk(0), chunk(2), last],
        vec![head, chunk(0), chunk(1), chunk(2), last, b"x"],
        vec![head, chunk(0), chunk(1), chunk(2), last, last],
        vec![head, last],
    ] {
        assert!(matches!(
            open(&other.concat()),
            Err(BundleError::BrokenSeal)
        ));
    }
}

#[test]
fn more_work_than_is_accepted_is_refused_before_any_is_done() {
    let sealed = cheap(b"PK");
    // 2^63 could never be finished; that it is refused at all shows that it wasn't begun.
    for work in ["18", "22", "63", "64", "255", "256", "99999999999999999999"] {
        let error = open(&with_work(&sealed, work)).unwrap_err();
        assert!(matches!(error, BundleError::CostlySeal), "{work}: {error}");
    }
    for odd in ["0", "017", "-1", "+9", "1e1", "", "1 "] {
        let error = open(&with_work(&sealed, odd)).unwrap_err();
        assert!(matches!(error, BundleError::BrokenSeal), "{odd:?}: {error}");
    }
    assert_eq!(open(&sealed_at(17, b"PK", WORDS)).unwrap(), b"PK");
}

#[test]
fn a_header_of_another_kind_is_refused_without_being_worked_through() {
    let sealed = cheap(b"PK");
    let (intro, rest) = sealed.split_at(22);
    let key = b"-> X25519 TEiF0ypqr+bpvcqXNyCVJpL7OuwPdVwPL7KQEbFDOCc\n";
    let many = b"-> a b c\n".repeat(1 << 20);
    for other in [
        [intro, key, rest].concat(),
        [intro, rest, rest].concat(),
        [intro, &many, rest].concat(),
        [intro, &b"x".repeat(1 << 20)].concat(),
        [intro, b"\n\n\n\n\n"].concat(),
        [intro, b"-> scrypt\n\n--- \n"].concat(),
        [
            intro,
            "-> scrypt ääääääääääääääääääääää 9\n".as_bytes(),
            rest,
        ]
        .concat(),
    ] {
        assert!(matches!(open(&other), Err(BundleError::BrokenSeal)));
    }
    assert!(matches!(
        open(b"a shopping list"),
        Err(BundleError::NotABundle)
    ));
}

#[test]
fn a_sealed_file_is_no_longer_than_any_other_and_holds_no_sealed_one() {
    let sealed = cheap(&[0; 1000]);
    let limits = Limits {
        file_bytes: sealed.len() as u64 - 1,
        ..Limits::default()
    };
    assert!(matches!(
        unseal(&sealed, &passphrase(WORDS), &limits),
        Err(BundleError::TooLarge(Bound::File))
    ));
    assert!(matches!(
        open(&cheap(&sealed)),
        Err(BundleError::NotABundle)
    ));
}

/// Sealed by age-encryption 0.3.1 (the JavaScript implementation on npm, which shares no code with
/// the library used here) at 2^16, from a bundle of the demo shop.
#[test]
fn a_bundle_sealed_by_another_implementation_opens() {
    let sealed = include_bytes!("fixtures/sealed-by-age-encryption-js-0.3.1.vvb");
    let words = passphrase("Ölfilm dünn wie Papier");
    let plain = unseal(sealed, &words, &Limits::default()).unwrap();
    let checked = read(&plain).unwrap();
    assert!(!checked.batch().unwrap().records().is_empty());
}

/// Sealed by age 1.1.1 (the Go implementation, as in Debian 12), which always writes 2^18.
#[test]
fn a_file_of_another_implementation_that_asks_for_more_work_is_refused() {
    let sealed = include_bytes!("fixtures/sealed-by-age-go-1.1.1.vvb");
    assert!(matches!(open(sealed), Err(BundleError::CostlySeal)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_length_around_the_edges_of_chunks_comes_out_as_it_went_in(
        chunks in 0..3_usize,
        off in -17..18_isize,
        byte: u8,
    ) {
        let file = vec![byte; (chunks * CHUNK).saturating_add_signed(off)];
        prop_assert_eq!(open(&cheap(&file)).unwrap(), file);
    }

    #[test]
    fn whatever_follows_the_first_line_is_refused_and_nothing_panics(rest: Vec<u8>) {
        let file = [b"age-encryption.org/v1\n", &rest[..]].concat();
        prop_assert!(matches!(open(&file), Err(BundleError::BrokenSeal)));
    }

    #[test]
    fn typing_a_passphrase_in_its_own_form_changes_nothing(text in "\\PC{0,20}") {
        let sealed = sealed_at(1, b"PK", &normal(&text));
        prop_assert!(unseal(&sealed, &passphrase(&text), &Limits::default()).is_ok());
        prop_assert!(unseal(&sealed, &passphrase(&normal(&text)), &Limits::default()).is_ok());
    }
}

/// The form that the format's description names.
fn normal(text: &str) -> String {
    use unicode_normalization::UnicodeNormalization;
    text.nfkc().collect::<String>().trim().to_owned()
}
